import { describe, expect, it } from 'vitest'
import { isTalkAround } from '../../../src/core/voice/talkAround.ts'
import { shippedListening } from '../../support/shippedListening.ts'

const { near: limits } = shippedListening
/** "band on", begun at 1160 ms and ended at 1860, over talk 10 dB softer. */
const HEARD = {
  text: 'say band on [unk]',
  final: false,
  utterance: 1,
  mono_ms: 2060,
  quiet_ms: 200,
  spoken_ms: 700,
  before_dB: -10,
}
const of = (change: object = {}, own_dBFS: number | undefined = -20, since_ms = 1600) =>
  isTalkAround('band on', since_ms, { ...HEARD, ...change }, { own_dBFS }, limits)

// The limits are common practice, no source.
describe('what stands around a phrase', () => {
  it('may be the talk of others who are heard behind it', () => {
    expect(of()).toBe(true)
  })

  it.each([
    ['nobody else was heard before it', { before_dB: -20.1 }],
    ['it was longer than the phrase', { spoken_ms: 800 }],
    ['nothing was measured before it', { before_dB: undefined }],
    ['pauses are not measured', { quiet_ms: undefined }],
    ['its length is not measured', { spoken_ms: undefined }],
  ])('is of the same breath where %s', (_, change) => {
    expect(of(change)).toBe(false)
  })

  it('is not told where nobody knows how loud we are', () => {
    expect(isTalkAround('band on', 1600, HEARD, { own_dBFS: undefined }, limits)).toBe(false)
  })

  it('belongs to a phrase of somebody else, which was there before the loud speech was half over', () => {
    expect(of({}, -20, 1510)).toBe(true)
    expect(of({}, -20, 1500)).toBe(false)
  })
})
