import { beforeEach, describe, expect, it } from 'vitest'
import type { ScriptedSpeech } from '../../../src/adapters/speech/scriptedSpeech.ts'
import type { VoiceControl } from '../../../src/app/draw/voiceControl.ts'
import type { PlainCommand } from '../../../src/core/protocol/commands.ts'
import { HEAR_RULES } from '../../../src/core/voice/hearRules.ts'
import { SPEECH_TROUBLES, type Hearing, type SpeechTrouble } from '../../../src/ports/speech.ts'
import type { FakeSound } from '../../support/fakeSound.ts'
import { voiceRig, type VoiceRig } from '../../support/voiceRig.ts'

let rig: VoiceRig
let sound: FakeSound
let speech: ScriptedSpeech
let voice: VoiceControl

const pass = (by_ms: number): Promise<void> => rig.pass(by_ms)
const say = (text: string, more: Partial<Hearing> = {}): Promise<void> => rig.say(text, more)
const touch = (...commands: PlainCommand[]): Promise<void> => rig.touch(...commands)
const entries = () => rig.entries()
const types = (): string[] => rig.types()
/** The whole of a phrase is heard before its end and stands for as long as it takes to act; gives its utterance. */
const sayEarly = async (text: string): Promise<{ utterance: number }> => {
  let utterance = 0
  const end = speech.onHearing((hearing) => (utterance = hearing.utterance))
  speech.partial(text)
  end()
  await pass(HEAR_RULES.hold_ms)
  return { utterance }
}

beforeEach(async () => {
  rig = await voiceRig()
  ;({ sound, speech, voice } = rig)
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
    expect(rig.view()?.ask?.question).toBeDefined()
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
    expect(rig.view()?.heard).toMatchObject({ text: 'patient confirmed', outcome: 'accepted' })
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
    expect(rig.view()?.step.id).toBe('identity')
    expect(rig.view()?.heard).toMatchObject({ text: '…', outcome: 'unclear' })
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
    expect(rig.view()?.notice?.text).toContain('rather than "patient confirmed"')
  })
})

describe('a phrase that is not accepted', () => {
  it('is shown and not answered while our own prompt plays', async () => {
    sound.setSpeaking(true)
    await say('patient confirmed')
    expect(types()).toEqual(['drawOpened'])
    expect(rig.view()?.heard).toMatchObject({ text: 'patient confirmed', outcome: 'refused' })
    expect(sound.chimes).toEqual([])
    sound.setSpeaking(false)
    await say('patient confirmed')
    expect(types()).toContain('identifierChecked')
  })

  it('is answered with a chime when it was too soft', async () => {
    await say('patient confirmed', { level_dB: HEAR_RULES.level_dB - 1 })
    expect(types()).toEqual(['drawOpened'])
    expect(rig.view()?.heard?.outcome).toBe('refused')
    expect(sound.chimes).toEqual(['notUnderstood'])
  })

  it('is answered with a chime when only part of it was heard', async () => {
    await say('confirmed')
    expect(types()).toEqual(['drawOpened'])
    expect(rig.view()?.heard).toMatchObject({ text: 'confirmed', outcome: 'unclear' })
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
    expect(rig.view()?.listening.state.kind).toBe('paused')
    expect(speech.phrases()).toContain('resume listening')
    await say('patient confirmed')
    expect(types()).toEqual(['drawOpened'])
    await say('resume listening')
    expect(rig.view()?.listening.state.kind).toBe('listening')
    await say('patient confirmed')
    expect(types()).toContain('identifierChecked')
  })

  it('stays through a touch', async () => {
    await say('pause listening')
    await touch('confirmPatient')
    expect(rig.view()?.listening.state.kind).toBe('paused')
    expect(speech.phrases()).not.toContain('consent given')
  })

  it('says on the screen what is still heard, and how it ends', async () => {
    await say('pause listening')
    expect(rig.view()?.listening.advice).toBe(
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
    expect(rig.view()?.listening.state.kind).toBe('paused')
    await say('go back')
    expect(types()).not.toContain('entryUndone')
  })

  it('opens no answers to a question, which touch and keys still answer', async () => {
    await say('pause listening')
    await touch('endDraw')
    expect(rig.view()?.ask).toBeDefined()
    expect(speech.phrases()).not.toContain('answer yes')
    expect(speech.phrases()).toContain('stop everything')
    await say('answer yes')
    expect(rig.view()?.ask).toBeDefined()
    await touch('confirmNo')
    expect(rig.view()?.ask).toBeUndefined()
  })
})

describe('tones that were misheard', () => {
  it.each([true, false])('leave it as it was, where it was tones: %s', async (tonesOnly) => {
    rig.set({ tonesOnly })
    const { utterance } = await sayEarly('tones only please')
    expect(rig.settings().tonesOnly).toBe(true)
    speech.final('[unk]', { utterance })
    await pass(250)
    expect(rig.settings().tonesOnly).toBe(tonesOnly)
  })
})

describe('trouble with hearing', () => {
  const trouble = (code: SpeechTrouble): void => speech.trouble({ kind: 'trouble', code })

  it.each(SPEECH_TROUBLES)('%s is shown with what to do about it', async (code) => {
    trouble(code)
    await pass(200)
    expect(rig.view()?.listening.state).toMatchObject({ kind: 'trouble', code })
    expect(rig.view()?.listening.advice).toMatch(/touch|Touch/)
  })

  it('is spoken of once, when hearing had worked', async () => {
    trouble('microphoneLost')
    trouble('noMicrophone')
    await pass(200)
    expect(sound.spoken).toEqual(['app.deaf'])
    speech.trouble(undefined)
    await pass(200)
    expect(rig.view()?.listening.advice).toBeUndefined()
  })
})

describe('stopping', () => {
  it('lets nothing more be heard, and shows no level', async () => {
    await pass(200)
    await voice.stop()
    const shown = rig.view()?.listening
    await speech.start()
    await say('patient confirmed')
    speech.level(0.9)
    await pass(200)
    expect(types()).toEqual(['drawOpened'])
    expect(rig.view()?.listening).toEqual(shown)
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
