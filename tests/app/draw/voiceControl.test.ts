import { beforeEach, describe, expect, it } from 'vitest'
import {
  createScriptedSpeech,
  type ScriptedSpeech,
} from '../../../src/adapters/speech/scriptedSpeech.ts'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'
import { createDrawLogs } from '../../../src/app/draw/drawLogs.ts'
import {
  openDrawRunner,
  type DrawRunner,
  type RunnerDeps,
} from '../../../src/app/draw/drawRunner.ts'
import { createVoiceControl, type VoiceControl } from '../../../src/app/draw/voiceControl.ts'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'
import type { PlainCommand } from '../../../src/core/protocol/commands.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'
import phrases from '../../../src/data/en/phrases.json'
import prompts from '../../../src/data/en/prompts.json'
import storageTexts from '../../../src/data/en/storage.json' with { type: 'json' }
import voiceTexts from '../../../src/data/en/voice.json'
import words from '../../../src/data/en/words.json'
import { SPEECH_TROUBLES, type SpeechTrouble } from '../../../src/ports/speech.ts'
import { fakeSound, type FakeSound } from '../../support/fakeSound.ts'
import { sampleOpening, SAMPLE_START_ms, sha256 } from '../../support/sampleLog.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

let clock: SimulatedClock
let sound: FakeSound
let speech: ScriptedSpeech
let runner: DrawRunner
let voice: VoiceControl
let view: DrawView | undefined

/** Lets time pass and everything that it woke run. */
const pass = async (by_ms: number): Promise<void> => {
  clock.advance(by_ms)
  await new Promise((done) => setImmediate(done))
}
/** Says a phrase; the final result alone is heard. */
const say = async (text: string, more: Parameters<ScriptedSpeech['final']>[1] = {}) => {
  speech.final(text, more)
  await pass(250)
}
/** The whole of a phrase is heard before its end and stands for as long as it takes to act; gives its utterance. */
const sayEarly = async (text: string): Promise<{ utterance: number }> => {
  let utterance = 0
  const end = speech.onHearing((hearing) => (utterance = hearing.utterance))
  speech.partial(text)
  end()
  await pass(HEAR_RULES.hold_ms)
  return { utterance }
}
const touch = async (...commands: PlainCommand[]): Promise<void> => {
  for (const type of commands) await runner.dispatch({ type }, 'touch')
}
const entries = () => runner.session.log().entries
const types = (): string[] => entries().map(({ event }) => event.type)

beforeEach(async () => {
  clock = createSimulatedClock({
    wall_ms: SAMPLE_START_ms,
    mono_ms: 1000,
    boot: 'first',
    offset_min: 60,
  })
  sound = fakeSound()
  speech = createScriptedSpeech(() => clock.read().mono_ms)
  const deps: RunnerDeps = {
    clock,
    logs: createDrawLogs({ clock, logStore: createMemoryLogStore(sha256), sha256, storageTexts }),
    storageTexts,
    sound,
    sha256,
    words,
    prompts,
    phrases,
    testName: (code) => code,
    shortTestName: (code) => code,
    texts,
    onView: (next) => (view = next),
    onMoved: () => voice.moved(),
    onListening: (wanted) => voice.setPaused(!wanted),
    onPrintLabels: () => undefined,
    isDiscreet: () => false,
    isHearing: () => voice.hearing(),
  }
  const plan = samplePlan([sampleTube('t1', 'edtaK2')])
  runner = await openDrawRunner(deps, sampleOpening({ plan }))
  voice = createVoiceControl({
    clock,
    sound,
    phrases,
    voiceTexts,
    makeSpeech: () => speech,
    settings: DEFAULT_SETTINGS,
    draw: runner,
  })
  await voice.start()
  sound.chimes.length = 0
  sound.spoken.length = 0
})

describe('what may be said', () => {
  it('follows the step, whatever confirmed it', async () => {
    expect(speech.phrases()).toContain('patient confirmed')
    expect(speech.phrases()).not.toContain('consent given')
    await say('patient confirmed')
    expect(speech.phrases()).toContain('consent given')
    expect(speech.phrases()).not.toContain('patient confirmed')
    await touch('confirmConsent')
    expect(speech.phrases()).toContain('answers checked')
  })

  it('has the safety phrases at every step', async () => {
    const safety = ['stop everything', 'feeling faint', 'sharp pain', 'site swelling']
    expect(speech.phrases()).toEqual(expect.arrayContaining(safety))
    await touch('confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies')
    expect(speech.phrases()).toEqual(expect.arrayContaining(safety))
  })

  it('is the answers and the safety phrases while a question is open', async () => {
    await say('wrong patient')
    expect(view?.ask?.question).toBeDefined()
    expect(speech.phrases()).toEqual(
      expect.arrayContaining(['answer yes', 'answer no', 'stop everything']),
    )
    expect(speech.phrases()).not.toContain('patient confirmed')
    await say('answer yes')
    expect(types()).toContain('exceptionRaised')
  })
})

describe('a phrase that is accepted', () => {
  it('is recorded as said, with its words, and shown', async () => {
    await say('patient confirmed')
    expect(entries().at(-1)).toMatchObject({ source: 'voice', heard: 'patient confirmed' })
    expect(view?.heard).toMatchObject({ text: 'patient confirmed', outcome: 'accepted' })
  })

  it('acts before its final result once it has stood long enough, and then only once', async () => {
    const spoken = await sayEarly('patient confirmed')
    const early = types()
    expect(early).toContain('identifierChecked')
    await say('patient confirmed', spoken)
    expect(types()).toEqual(early)
  })

  it('does not act before its end when more is said', async () => {
    speech.partial('patient confirmed')
    await pass(HEAR_RULES.hold_ms - 1)
    speech.partial('patient confirmed [unk]')
    await pass(1000)
    expect(types()).toEqual(['drawOpened'])
  })
})

describe('an early act that its final result contradicts', () => {
  it('is taken back and stays in the record as said in error', async () => {
    const spoken = await sayEarly('patient confirmed')
    await say('[unk]', spoken)
    expect(types()).toContain('entryUndone')
    expect(view?.step.id).toBe('identity')
    expect(view?.heard).toMatchObject({ text: '…', outcome: 'unclear' })
  })

  it('gives way to what was meant', async () => {
    const spoken = await sayEarly('feeling faint')
    await say('site swelling', spoken)
    const raised = entries().flatMap(({ event }) =>
      event.type === 'exceptionRaised' ? [event.kind] : [],
    )
    expect(raised).toEqual(['faint', 'swelling'])
    expect(types()).toContain('entryUndone')
  })

  it('is only told when something else was recorded since', async () => {
    const spoken = await sayEarly('patient confirmed')
    await touch('confirmConsent')
    await say('[unk]', spoken)
    expect(types()).not.toContain('entryUndone')
    expect(view?.notice?.text).toContain('rather than "patient confirmed"')
  })
})

describe('a phrase that is not accepted', () => {
  it('is shown and not answered while our own prompt plays', async () => {
    sound.setSpeaking(true)
    await say('patient confirmed')
    expect(types()).toEqual(['drawOpened'])
    expect(view?.heard).toMatchObject({ text: 'patient confirmed', outcome: 'refused' })
    expect(sound.chimes).toEqual([])
    sound.setSpeaking(false)
    await say('patient confirmed')
    expect(types()).toContain('identifierChecked')
  })

  it('is answered with a chime when it was too soft', async () => {
    await say('patient confirmed', { level_dB: HEAR_RULES.level_dB - 1 })
    expect(types()).toEqual(['drawOpened'])
    expect(view?.heard?.outcome).toBe('refused')
    expect(sound.chimes).toEqual(['notUnderstood'])
  })

  it('is answered with a chime when only part of it was heard', async () => {
    await say('confirmed')
    expect(types()).toEqual(['drawOpened'])
    expect(view?.heard).toMatchObject({ text: 'confirmed', outcome: 'unclear' })
    expect(sound.chimes).toEqual(['notUnderstood'])
  })

  it('does nothing at all when it is talk', async () => {
    await say('[unk] patient [unk]')
    expect(types()).toEqual(['drawOpened'])
    expect(sound.chimes).toEqual([])
  })

  it('acts all the same while our prompt plays when it is a safety phrase', async () => {
    sound.setSpeaking(true)
    await say('feeling faint')
    expect(types()).toContain('exceptionRaised')
  })
})

describe('a pause', () => {
  it('is shown, and ends by voice', async () => {
    await say('pause listening')
    expect(view?.listening.state.kind).toBe('paused')
    expect(speech.phrases()).toContain('resume listening')
    await say('patient confirmed')
    expect(types()).toEqual(['drawOpened'])
    await say('resume listening')
    expect(view?.listening.state.kind).toBe('listening')
    await say('patient confirmed')
    expect(types()).toContain('identifierChecked')
  })

  it('stays through a touch', async () => {
    await say('pause listening')
    await touch('confirmPatient')
    expect(view?.listening.state.kind).toBe('paused')
    expect(speech.phrases()).not.toContain('consent given')
  })

  it('says on the screen what is still heard, and how it ends', async () => {
    await say('pause listening')
    expect(view?.listening.advice).toBe(
      'Only the safety phrases are heard. Say "resume listening" to go on by voice.',
    )
  })

  it.each([
    ['stop everything', 'stopEverything'],
    ['feeling faint', 'faint'],
    ['sharp pain', 'sharpPain'],
    ['site swelling', 'swelling'],
    ['stuck myself', 'needlestick'],
  ])('lets "%s" act, and goes on', async (phrase, kind) => {
    await say('pause listening')
    await say(phrase)
    expect(entries().at(-1)).toMatchObject({ source: 'voice', heard: phrase })
    expect(entries().map(({ event }) => ('kind' in event ? event.kind : ''))).toContain(kind)
    expect(view?.listening.state.kind).toBe('paused')
    await say('go back')
    expect(types()).not.toContain('entryUndone')
  })

  it('opens no answers to a question, which touch and keys still answer', async () => {
    await say('pause listening')
    await touch('endDraw')
    expect(view?.ask).toBeDefined()
    expect(speech.phrases()).not.toContain('answer yes')
    expect(speech.phrases()).toContain('stop everything')
    await say('answer yes')
    expect(view?.ask).toBeDefined()
    await touch('confirmNo')
    expect(view?.ask).toBeUndefined()
  })
})

describe('trouble with hearing', () => {
  const trouble = (code: SpeechTrouble): void => speech.trouble({ kind: 'trouble', code })

  it.each(SPEECH_TROUBLES)('%s is shown with what to do about it', async (code) => {
    trouble(code)
    await pass(200)
    expect(view?.listening.state).toMatchObject({ kind: 'trouble', code })
    expect(view?.listening.advice).toMatch(/touch|Touch/)
  })

  it('is spoken of once, when hearing had worked', async () => {
    trouble('microphoneLost')
    trouble('noMicrophone')
    await pass(200)
    expect(sound.spoken).toEqual(['app.deaf'])
    speech.trouble(undefined)
    await pass(200)
    expect(view?.listening.advice).toBeUndefined()
  })
})

describe('stopping', () => {
  it('lets nothing more be heard, and shows no level', async () => {
    await pass(200)
    await voice.stop()
    const shown = view?.listening
    await speech.start()
    await say('patient confirmed')
    speech.level(0.9)
    await pass(200)
    expect(types()).toEqual(['drawOpened'])
    expect(view?.listening).toEqual(shown)
  })

  it('drops a phrase that was waiting to act', async () => {
    speech.partial('patient confirmed')
    await voice.stop()
    await pass(1000)
    expect(types()).toEqual(['drawOpened'])
  })
})

it('knows that somebody is in the middle of saying something', async () => {
  expect(voice.hearing()).toBe(false)
  speech.partial('patient')
  expect(voice.hearing()).toBe(true)
  await say('patient confirmed')
  expect(voice.hearing()).toBe(false)
})
