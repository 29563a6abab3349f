import { beforeEach, describe, expect, it } from 'vitest'
import {
  createSimulatedClock,
  type SimulatedClock,
} from '../../../src/adapters/time/simulatedClock.ts'
import { createPrompter } from '../../../src/app/draw/prompter.ts'
import { createQuietSound } from '../../../src/app/voice/quietSound.ts'
import type { Prompts } from '../../../src/app/site/words.ts'
import promptsJson from '../../../src/data/en/prompts.json'
import { fakeReader } from '../../support/fakeReader.ts'
import { fakeSound } from '../../support/fakeSound.ts'
import { soundContract } from '../../contract/sound.contract.ts'
import { createSilentSound } from '../../../src/adapters/sound/silentSound.ts'

const prompts: Prompts = { ...promptsJson, unrecorded: ['step.rack'] }
let clock: SimulatedClock
let quiet = false
let mayRead = true
let hasVoice = true

beforeEach(() => {
  clock = createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: 0, offset_min: 0 })
  quiet = false
  mayRead = true
  hasVoice = true
})

function rig() {
  const inner = fakeSound()
  const reader = fakeReader()
  const sound = createQuietSound({
    clock,
    sound: inner,
    reader,
    prompts,
    hasVoice,
    isQuiet: () => quiet,
    mayRead: () => mayRead,
  })
  const edges: boolean[] = []
  sound.onSpeaking((speaking) => edges.push(speaking))
  return { sound, inner, reader, edges }
}

soundContract('the sound of the app, spoken', () => ({
  sound: createQuietSound({
    clock,
    sound: createSilentSound(),
    reader: fakeReader(),
    prompts,
    hasVoice,
    isQuiet: () => false,
    mayRead: () => true,
  }),
  settled: () => Promise.resolve(),
}))

describe('in words', () => {
  it('prompts are spoken, chimes sound, and no tone is added', () => {
    const { sound, inner } = rig()
    sound.chime('timeUp')
    sound.speak('cue.band.up')
    clock.advance(5000)
    expect([inner.chimes, inner.spoken]).toEqual([['timeUp'], ['cue.band.up']])
  })

  it('what nobody recorded is read by the browser, and the gate is closed meanwhile', () => {
    const { sound, inner, reader, edges } = rig()
    sound.speak('step.rack')
    reader.setReading(true)
    expect(reader.texts).toEqual([promptsJson.prompts['step.rack']])
    expect([inner.spoken, inner.chimes]).toEqual([[], []])
    reader.setReading(false)
    expect(edges).toEqual([true, false])
  })

  it('names that others have read do not move the gate twice', () => {
    const { reader, edges } = rig()
    reader.setReading(true)
    reader.setReading(false)
    expect(edges).toEqual([])
  })

  it('what nobody recorded is a tone where the browser’s voice would come from the loudspeaker', () => {
    mayRead = false
    const { sound, inner, reader } = rig()
    sound.speak('step.rack')
    expect([inner.chimes, reader.texts]).toEqual([['next'], []])
  })
})

describe('in a language that nobody has recorded', () => {
  beforeEach(() => void (hasVoice = false))

  it('prompts are left to the sound, which has them read', () => {
    const { sound, inner } = rig()
    sound.speak('step.band')
    expect([inner.spoken, inner.chimes]).toEqual([['step.band'], []])
  })

  it('prompts are tones where what reads them would come from the loudspeaker', () => {
    mayRead = false
    const { sound, inner } = rig()
    sound.speak('step.band')
    expect([inner.spoken, inner.chimes]).toEqual([[], ['next']])
  })
})

describe('in tones', () => {
  beforeEach(() => void (quiet = true))

  it('a prompt is the tone of its kind, and no word', () => {
    const { sound, inner, reader, edges } = rig()
    sound.speak('ask.endDraw')
    clock.advance(1000)
    sound.speak('step.rack')
    expect(inner.chimes).toEqual(['asked', 'next'])
    expect([inner.spoken, reader.texts, edges]).toEqual([[], [], []])
  })

  it('every step has its tone, however fast they follow', () => {
    const { sound, inner } = rig()
    sound.speak('step.band')
    clock.advance(600)
    sound.speak('step.needle')
    expect(inner.chimes).toEqual(['next', 'next'])
  })

  it('a tone waits until "heard" has sounded, and what is told meanwhile takes its place', () => {
    const { sound, inner } = rig()
    sound.chime('heard')
    sound.speak('step.band')
    expect(inner.chimes).toEqual(['heard'])
    clock.advance(100)
    sound.speak('ask.endDraw')
    clock.advance(1000)
    expect(inner.chimes).toEqual(['heard', 'asked'])
  })

  it('an alarm is one sound: its own chime, and no tone behind it', () => {
    const { sound, inner } = rig()
    sound.chime('heard')
    sound.chime('severe')
    sound.speak('off.bandNeedle')
    clock.advance(5000)
    expect(inner.chimes).toEqual(['heard', 'severe'])
  })

  it('a chime that comes while a tone waits takes its place', () => {
    const { sound, inner } = rig()
    sound.chime('heard')
    sound.speak('mix.8')
    clock.advance(100)
    sound.chime('mixNow')
    clock.advance(5000)
    expect(inner.chimes).toEqual(['heard', 'mixNow'])
  })

  it('words of a clock that waited for a person’s are not a second call', () => {
    const { sound, inner } = rig()
    sound.chime('timeUp')
    clock.advance(1200)
    sound.speak('cue.band.up')
    clock.advance(5000)
    expect(inner.chimes).toEqual(['timeUp'])
  })

  it('the words that were to follow are forgotten: nothing of them is said when words are back', () => {
    const { sound, inner } = rig()
    const isQuiet = () => quiet
    const prompter = createPrompter({
      clock,
      sound,
      isHearing: () => false,
      isQuiet,
      spoken: (key) => key,
    })
    prompter.say('clock.band', 'time.s40', 'clock.toGo')
    quiet = false
    sound.speak('bench.ready')
    inner.setSpeaking(true)
    inner.setSpeaking(false)
    expect(inner.spoken).toEqual(['bench.ready'])
  })

  it('a prompt that is being spoken ends when the next one is a tone', () => {
    quiet = false
    const { sound, reader } = rig()
    let stopped = 0
    Object.assign(reader, { stop: () => (stopped += 1) })
    sound.speak('step.rack')
    reader.setReading(true)
    quiet = true
    sound.speak('ask.endDraw')
    expect(stopped).toBe(1)
  })
})
