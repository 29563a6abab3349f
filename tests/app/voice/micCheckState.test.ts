import { describe, expect, it } from 'vitest'
import { CHECKED, checkPlan } from '../../../src/app/voice/micCheckPlan.ts'
import book from '../../../src/data/en/phrases.json'
import {
  micCheckAfter,
  type MicCheckEvent,
  type MicCheckState,
} from '../../../src/app/voice/micCheckState.ts'
import type { HearOutcome } from '../../../src/core/voice/hearing.ts'

const READY: MicCheckState = { phase: 'ready' }

/** The state after events, one each so many ms. */
const after = (events: readonly MicCheckEvent[], each_ms = 100): MicCheckState =>
  events.reduce<MicCheckState>(
    (state, event, i) => micCheckAfter(state, event, (i + 1) * each_ms),
    READY,
  )

const STARTED: MicCheckEvent = { type: 'started', plan: checkPlan(book, undefined) }
const OPEN: readonly MicCheckEvent[] = [STARTED, { type: 'opened' }]
const ASKED: readonly MicCheckEvent[] = [...OPEN, { type: 'timeUp' }]
const heard = (outcome: HearOutcome): MicCheckEvent => ({ type: 'heard', outcome })
const level = (value: number): MicCheckEvent => ({ type: 'levelChanged', level: value })
const rightOne: MicCheckEvent = heard({
  kind: 'accept',
  key: 'confirmPatient',
  phrase: 'patient confirmed',
  early: false,
})

describe('the steps of the microphone check', () => {
  it('measures the room for three seconds, then asks for each phrase for nine at most', () => {
    expect(after(OPEN)).toMatchObject({ phase: 'room', until_ms: 200 + 3000 })
    expect(after(ASKED)).toMatchObject({ phase: 'asking', index: 0, until_ms: 300 + 9000 })
  })

  it('takes the loudest since a phrase was asked for as its loudness', () => {
    const state = after([...OPEN, level(0.9), { type: 'timeUp' }, level(0.5), level(0.3), rightOne])
    expect(state).toMatchObject({ phase: 'asking', index: 1, right: 1, speech_dBFS: [-30] })
  })

  it('counts another phrase as wrong and goes on', () => {
    const wrong = heard({ kind: 'accept', key: 'refuseIdentity', phrase: 'wrong patient', early: false }) // prettier-ignore
    expect(after([...ASKED, wrong])).toMatchObject({ index: 1, right: 0, wrong: 1 })
  })

  it('shows what was heard and not taken, and asks on', () => {
    const refused = heard({ kind: 'refuse', phrase: 'patient confirmed', why: 'tooSoft' })
    expect(after([...ASKED, refused])).toMatchObject({ index: 0, transcript: 'patient confirmed' })
  })

  it.each<[string, MicCheckEvent]>([
    ['part of a phrase', heard({ kind: 'unclear', text: 'patient' })],
    [
      'an act taken back',
      heard({ kind: 'undo', key: 'confirmPatient', phrase: 'x', instead: '[unk]' }),
    ],
  ])('is not moved by %s', (_, event) => {
    expect(after([...ASKED, event])).toEqual(after(ASKED))
  })

  it('is done after the last phrase, with a verdict', () => {
    const skips = CHECKED.map(() => ({ type: 'skipped' }) as const)
    expect(after([...ASKED, ...skips])).toMatchObject({
      phase: 'done',
      right: 0,
      verdict: { verdict: 'poor' },
    })
  })

  it.each<[string, readonly MicCheckEvent[]]>([
    ['while it opens', [STARTED]],
    ['while the room is measured', OPEN],
    ['while a phrase is asked for', ASKED],
  ])('ends with trouble %s', (_, before) => {
    expect(after([...before, { type: 'troubled', trouble: 'notAllowed' }])).toMatchObject({
      phase: 'done',
      verdict: { verdict: 'poor', reasons: [{ code: 'trouble', trouble: 'notAllowed' }] },
    })
  })

  it.each<[string, MicCheckEvent]>([
    ['a level', level(0.5)],
    ['a phrase', rightOne],
    ['the end of a time', { type: 'timeUp' }],
    ['a skip', { type: 'skipped' }],
    ['trouble', { type: 'troubled', trouble: 'tooLoud' }],
    ['an opening', { type: 'opened' }],
  ])('takes no notice of %s when it is not running', (_, event) => {
    expect(micCheckAfter(READY, event, 0)).toBe(READY)
    const done = after([...ASKED, { type: 'troubled', trouble: 'off' }])
    expect(micCheckAfter(done, event, 0)).toBe(done)
  })

  it('can be stopped and started anew at any point, with nothing kept', () => {
    expect(after([...ASKED, rightOne, { type: 'stopped' }])).toEqual(READY)
    expect(after([...ASKED, rightOne, ...OPEN])).toMatchObject({ phase: 'room', right: 0 })
  })
})
