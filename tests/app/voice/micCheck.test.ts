import { describe, expect, it } from 'vitest'
import { createKeysSpeech } from '../../../src/adapters/speech/keysSpeech.ts'
import { createScriptedSpeech } from '../../../src/adapters/speech/scriptedSpeech.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { createMicCheck, type CheckedPerson } from '../../../src/app/voice/micCheck.ts'
import { CHECKED } from '../../../src/app/voice/micCheckPlan.ts'
import type { CheckFound } from '../../../src/core/voice/ownVoice.ts'
import book from '../../../src/data/en/phrases.json'
import voiceTexts from '../../../src/data/en/voice.json'

const PERSON = { collectorId: 'ada', voice: undefined, phrases: book }

function setUp(person: () => CheckedPerson | undefined = () => PERSON) {
  const clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'b', offset_min: 0 })
  const speech = createScriptedSpeech(() => clock.read().mono_ms)
  let ticks = 0
  const learned: [string, CheckFound][] = []
  const check = createMicCheck({
    clock,
    phrases: book,
    texts: voiceTexts,
    makeSpeech: () => speech,
    onHeard: () => ticks++,
    person,
    onLearned: (collectorId, found) => learned.push([collectorId, found]),
  })
  return { clock, speech, check, learned, ticks: () => ticks }
}

/** Says what the screen asks for, as the recognizer would hear it. */
function sayAsked({ speech, check }: ReturnType<typeof setUp>): void {
  const view = check.current()
  if (view.phase !== 'asking') throw new Error(`Nothing is asked for in "${view.phase}".`)
  speech.level(0.7)
  speech.partial(view.phrase)
  speech.final(view.phrase)
}

describe('micCheck', () => {
  it('measures the room, asks for six phrases and says that all is well', async () => {
    const rig = setUp()
    await rig.check.start('check')
    expect(rig.check.current().phase).toBe('room')
    rig.speech.level(0.05)
    rig.clock.advance(3000)
    for (let i = 0; i < CHECKED.length; i++) {
      expect(rig.check.current()).toMatchObject({ phase: 'asking', number: i + 1, of: 6 })
      sayAsked(rig)
    }
    expect(rig.check.current()).toEqual({
      phase: 'done',
      kind: 'check',
      verdict: { verdict: 'good', reasons: [] },
      right: 6,
      asked: 6,
    })
    expect(rig.ticks()).toBe(6)
  })

  it('hears each phrase among those of its step, so that a wrong one can be heard', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.clock.advance(3000)
    expect(rig.speech.phrases()).toEqual(
      expect.arrayContaining(['wrong patient', 'stop everything']),
    )
    rig.speech.final('wrong patient')
    expect(rig.check.current()).toMatchObject({ phase: 'asking', number: 2 })
    for (let i = 1; i < CHECKED.length; i++) sayAsked(rig)
    expect(rig.check.current()).toMatchObject({ right: 5, verdict: { verdict: 'fair' } })
  })

  it('takes silence as not heard and is over within a minute', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.clock.advance(60_000)
    expect(rig.check.current()).toMatchObject({
      phase: 'done',
      right: 0,
      verdict: { verdict: 'poor', reasons: ['6 phrases were not heard.'] },
    })
  })

  it('ends with the reason when the microphone has trouble', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.clock.advance(3000)
    rig.speech.trouble({ kind: 'trouble', code: 'microphoneMuted' })
    expect(rig.check.current()).toMatchObject({
      phase: 'done',
      verdict: { verdict: 'poor', reasons: ['The microphone is muted.'] },
    })
  })

  it('says so when voice is switched off', async () => {
    const { clock } = setUp()
    const check = createMicCheck({
      clock,
      phrases: book,
      texts: voiceTexts,
      makeSpeech: createKeysSpeech,
      onHeard: () => undefined,
      person: () => undefined,
      onLearned: () => undefined,
    })
    await check.start('check')
    expect(check.current()).toMatchObject({ phase: 'done', verdict: { verdict: 'poor' } })
  })

  it('stops in the middle and can be started again', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.clock.advance(3000)
    rig.check.skip()
    expect(rig.check.current()).toMatchObject({ number: 2 })
    rig.check.stop()
    expect(rig.check.current()).toEqual({ phase: 'ready' })
    rig.clock.advance(60_000)
    expect(rig.check.current()).toEqual({ phase: 'ready' })
    await rig.check.start('check')
    expect(rig.check.current().phase).toBe('room')
  })
})

describe('what a check learns', () => {
  it('is how each phrase was heard, and the levels', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.speech.level(0.1)
    rig.clock.advance(3000)
    sayAsked(rig)
    rig.check.skip()
    for (let i = 2; i < CHECKED.length; i++) sayAsked(rig)
    expect(rig.learned).toHaveLength(1)
    const [collectorId, { trials, levels }] = rig.learned[0]!
    expect(collectorId).toBe('ada')
    expect(trials[0]).toEqual({ key: 'confirmPatient', phrase: 'patient confirmed', isHeard: true })
    expect(trials[1]).toMatchObject({ key: 'confirmSupplies', isHeard: false })
    expect(trials).toHaveLength(6)
    expect(levels).toEqual({ room_dBFS: -54, speech_dBFS: -18 })
  })

  it('is nothing of a phrase that nobody said, and a miss of one that was said and not heard', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.speech.level(0.1)
    rig.clock.advance(3000)
    rig.speech.level(0.15)
    rig.clock.advance(9000)
    rig.speech.level(0.7)
    rig.clock.advance(9000)
    rig.clock.advance(60_000)
    expect(rig.learned[0]?.[1].trials).toEqual([
      { key: 'confirmSupplies', phrase: 'supplies checked', isHeard: false },
    ])
  })

  it('is nothing where the command was heard in another wording', async () => {
    const rig = setUp()
    await rig.check.start('check')
    rig.clock.advance(3000)
    rig.speech.final('identity confirmed')
    expect(rig.check.current()).toMatchObject({ phase: 'asking', number: 2 })
    rig.check.stop()
    expect(rig.learned).toEqual([])
  })

  it('is kept of a round that is left in the middle, without levels', async () => {
    const rig = setUp()
    await rig.check.start('learn')
    rig.clock.advance(3000)
    expect(rig.check.current()).toMatchObject({ phase: 'asking', of: 12 })
    sayAsked(rig)
    rig.check.stop()
    expect(rig.learned).toEqual([
      ['ada', { trials: [{ key: 'confirmPatient', phrase: 'patient confirmed', isHeard: true }] }],
    ])
  })

  it('is nothing while nobody has said who draws', async () => {
    const rig = setUp(() => undefined)
    await rig.check.start('check')
    rig.clock.advance(3000)
    sayAsked(rig)
    rig.check.stop()
    expect(rig.learned).toEqual([])
  })
})
