import { describe, expect, it } from 'vitest'
import { nearness, type PhraseLevels } from '../../../src/core/voice/nearness.ts'
import { shippedListening } from '../../support/shippedListening.ts'

const { near: limits } = shippedListening
const CLEAR: PhraseLevels = {
  above_dB: 8,
  onset_dB: 6,
  quiet_ms: 200,
  spoken_ms: 700,
  own_dB: 0,
}
const of = (change: PhraseLevels = {}) => nearness('needle in', { ...CLEAR, ...change }, limits)

describe('how near a phrase seems', () => {
  it('is near where it is clearly louder at once, and done', () => {
    expect(of()).toBe('near')
  })

  it.each([
    ['a little less loud', { above_dB: 7.9 }],
    ['swelling up', { onset_dB: 5.9 }],
    ['followed by more', { quiet_ms: 180 }],
    ['softer than ours', { own_dB: -4.1 }],
  ])('is unsure where it is %s', (_, change) => {
    expect(of(change)).toBe('unsure')
  })

  it.each([
    ['as loud as the talk', { above_dB: 3.9 }],
    ['much softer than ours', { own_dB: -10.1 }],
    ['longer than the phrase can last', { spoken_ms: 941 }],
  ])('is far where it is %s', (_, change) => {
    expect(of(change)).toBe('far')
  })

  it('does not need to know how loud we are', () => {
    expect(of({ own_dB: undefined })).toBe('near')
  })

  it.each(['above_dB', 'onset_dB', 'quiet_ms', 'spoken_ms'] as const)(
    'says nothing without %s',
    (field) => {
      expect(of({ [field]: undefined })).toBeUndefined()
    },
  )
})
