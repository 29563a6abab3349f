// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { createHowlerSound } from '../../../src/adapters/sound/howlerSound.ts'
import type { SoundAsked } from '../../../src/adapters/sound/showSound.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { CHIMES, type SoundTrouble } from '../../../src/ports/sound.ts'
import { soundContract } from '../../contract/sound.contract.ts'
import { fake, Howler, LENGTH_s, resetHowler } from './fakeHowler.ts'

vi.mock('howler', () => import('./fakeHowler.ts'))

beforeEach(() => {
  vi.useFakeTimers()
  resetHowler()
})
afterEach(() => vi.useRealTimers())

const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms))
const heard = (): string[] => [...fake.heard].map(({ path }) => path)

function fresh() {
  fake.missing.add('prompts/af_heart/no.such.prompt.ogg')
  const sound = createHowlerSound({
    base: 'http://localhost/',
    voice: 'af_heart',
    clock: createSystemClock('test'),
  })
  const edges: boolean[] = []
  const troubles: (SoundTrouble | undefined)[] = []
  sound.onSpeaking((speaking) => edges.push(speaking))
  sound.onTrouble((trouble) => troubles.push(trouble))
  return { sound, edges, troubles, settled: () => wait(10_000) }
}

soundContract('howler', fresh)

describe('prompts', () => {
  it('close the gate only while they are heard', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    expect(edges).toEqual([])
    await wait(25)
    expect(heard()).toEqual(['prompts/af_heart/step.band.ogg'])
    expect(edges).toEqual([true])
    await wait(LENGTH_s * 1000 - 50)
    expect(edges).toEqual([true])
    await wait(50)
    expect(edges).toEqual([true, false])
    expect(heard()).toEqual([])
  })

  it('end the one before', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    await wait(500)
    sound.speak('step.needle')
    await wait(100)
    expect(heard()).toEqual(['prompts/af_heart/step.needle.ogg'])
    expect(edges).toEqual([true, false, true])
  })

  it('start anew when the same one is asked for again, and the first end does not open the gate', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    await wait(1000)
    sound.speak('step.band')
    await wait(1000)
    expect(edges).toEqual([true, false, true])
    expect(heard()).toEqual(['prompts/af_heart/step.band.ogg'])
    await wait(600)
    expect(edges).toEqual([true, false, true, false])
  })

  it('are never heard when hushed while still loading', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    sound.hush()
    await wait(5000)
    expect(fake.begun).toEqual([])
    expect(edges).toEqual([])
  })

  it('open the gate after their length even when the player loses the end', async () => {
    const { sound, edges } = fresh()
    fake.losesEnds = true
    sound.speak('step.band')
    await wait(LENGTH_s * 1000 + 600)
    expect(edges).toEqual([true, false])
    expect(heard()).toEqual([])
  })

  it('that cannot be loaded are told as trouble and fetched anew the next time', async () => {
    const { sound, edges, troubles } = fresh()
    fake.missing.add('prompts/af_heart/step.band.ogg')
    sound.speak('step.band')
    await wait(100)
    expect(troubles).toEqual([{ code: 'promptsMissing', detail: 'prompts/af_heart/step.band.ogg' }])
    expect(edges).toEqual([])
    fake.missing.clear()
    sound.speak('step.band')
    await wait(100)
    expect(edges).toEqual([true])
    expect(troubles.at(-1)).toBeUndefined()
  })

  it('come from the folder of the voice set last', async () => {
    const { sound } = fresh()
    sound.setVoice('am_michael')
    sound.speak('step.band')
    await wait(100)
    expect(heard()).toEqual(['prompts/am_michael/step.band.ogg'])
  })

  it('are let go when many others have been spoken since', async () => {
    const { sound } = fresh()
    for (let i = 0; i < 40; i++) {
      sound.speak(`key.${i}`)
      await wait(100)
    }
    const loaded = fake.made.filter(
      (howl) => howl.path.startsWith('prompts/') && howl.state() === 'loaded',
    )
    expect(loaded.length).toBeLessThanOrEqual(24)
    expect(loaded.at(-1)?.path).toBe('prompts/af_heart/key.39.ogg')
  })
})

describe('chimes', () => {
  it('are all loaded before the first is asked for', () => {
    fresh()
    expect(fake.made.map(({ path }) => path)).toEqual(CHIMES.map((name) => `chimes/${name}.wav`))
  })

  it('sound over a prompt without ending it', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    await wait(100)
    sound.chime('nearlyUp')
    await wait(10)
    expect(heard()).toEqual(['prompts/af_heart/step.band.ogg', 'chimes/nearlyUp.wav'])
    expect(edges).toEqual([true])
  })
})

describe('chimes that cannot be loaded', () => {
  it('are told for as long as one is missing, before any is asked for', async () => {
    fake.missing.add('chimes/timeUp.wav').add('chimes/severe.wav')
    const { troubles } = fresh()
    await wait(100)
    expect(troubles).toEqual([{ code: 'chimesMissing', detail: 'chimes/timeUp.wav' }])
    fake.missing.delete('chimes/timeUp.wav')
    await wait(10_100)
    expect(troubles.at(-1)).toEqual({ code: 'chimesMissing', detail: 'chimes/severe.wav' })
    fake.missing.clear()
    await wait(10_100)
    expect(troubles.at(-1)).toBeUndefined()
  })

  it('are heard again once they could be fetched', async () => {
    fake.missing.add('chimes/timeUp.wav')
    const { sound } = fresh()
    await wait(100)
    fake.missing.clear()
    await wait(10_100)
    sound.chime('timeUp')
    await wait(10)
    expect(heard()).toEqual(['chimes/timeUp.wav'])
  })

  it('are graver than prompts that are missing too', async () => {
    fake.missing.add('chimes/timeUp.wav')
    const { sound, troubles } = fresh()
    sound.speak('no.such.prompt')
    await wait(100)
    expect(troubles).toEqual([{ code: 'chimesMissing', detail: 'chimes/timeUp.wav' }])
  })
})

describe('a test of the alarm', () => {
  it('sounds it, and answers once it is heard', async () => {
    const { sound } = fresh()
    await wait(100)
    const outcome = sound.test()
    await wait(10)
    expect(heard()).toEqual(['chimes/timeUp.wav'])
    expect(await outcome).toBe('played')
  })

  it('says that sound is switched off, or turned all the way down', async () => {
    const { sound } = fresh()
    sound.setVolume(0)
    expect(await sound.test()).toBe('silent')
    sound.setVolume(1)
    sound.setSilent(true)
    expect(await sound.test()).toBe('silent')
    expect(fake.begun).toEqual([])
  })

  it('says that its sound is missing', async () => {
    fake.missing.add('chimes/timeUp.wav')
    const { sound } = fresh()
    const outcome = sound.test()
    await wait(2100)
    expect(await outcome).toBe('chimesMissing')
  })

  it('says that the browser holds it back, and does not sound it later', async () => {
    const { sound } = fresh()
    Howler.ctx.state = 'suspended'
    const outcome = sound.test()
    await wait(2100)
    expect(await outcome).toBe('heldBack')
    Howler.ctx.gesture()
    await wait(100)
    expect(fake.begun).toEqual([])
  })
})

describe('silent mode', () => {
  it('ends what is heard at once and lets nothing more be heard', async () => {
    const { sound, edges } = fresh()
    sound.speak('step.band')
    await wait(100)
    sound.chime('severe')
    await wait(10)
    sound.setSilent(true)
    expect(heard()).toEqual([])
    expect(edges).toEqual([true, false])
    sound.chime('severe')
    sound.speak('step.needle')
    await wait(1000)
    expect(fake.begun).toHaveLength(2)
  })

  it('holds back a sound that was still loading', async () => {
    const { sound } = fresh()
    sound.chime('severe')
    sound.setSilent(true)
    await wait(1000)
    expect(fake.begun).toEqual([])
  })

  it('is left again', async () => {
    const { sound } = fresh()
    sound.setSilent(true)
    sound.setSilent(false)
    sound.chime('heard')
    await wait(100)
    expect(fake.begun).toEqual(['chimes/heard.wav'])
  })
})

describe('a browser that holds sound back until a touch', () => {
  it('is told of once, and what was asked for a moment ago is then heard', async () => {
    const { sound, edges, troubles } = fresh()
    Howler.ctx.state = 'suspended'
    sound.speak('step.band')
    sound.chime('nearlyUp')
    await wait(1000)
    expect(fake.begun).toEqual([])
    expect(edges).toEqual([])
    expect(troubles).toEqual([{ code: 'heldBack' }])
    Howler.ctx.gesture()
    await wait(10)
    expect(heard().sort()).toEqual(['chimes/nearlyUp.wav', 'prompts/af_heart/step.band.ogg'])
    expect(edges).toEqual([true])
    expect(troubles).toEqual([{ code: 'heldBack' }, undefined])
  })

  it('is told of as soon as the loudspeaker is taken away in the middle, and no more once it is back', async () => {
    const { sound, troubles } = fresh()
    sound.chime('heard')
    await wait(100)
    Howler.ctx.become('suspended')
    await wait(1000)
    expect(troubles).toEqual([{ code: 'heldBack' }])
    Howler.ctx.gesture()
    await wait(10)
    expect(troubles.at(-1)).toBeUndefined()
  })

  it('does not say late what was true a while ago', async () => {
    const { sound, edges } = fresh()
    Howler.ctx.state = 'suspended'
    sound.speak('cue.band.up')
    for (let i = 0; i < 5; i++) sound.chime('timeUp')
    await wait(3000)
    Howler.ctx.gesture()
    await wait(3000)
    expect(fake.begun).toEqual([])
    expect(edges).toEqual([])
  })
})

it('keeps the volume within 0..1', () => {
  const { sound } = fresh()
  const levels = [0.4, 7, -1].map((volume) => {
    sound.setVolume(volume)
    return Howler.level
  })
  expect(levels).toEqual([0.4, 1, 0])
})

it('shows the page what was asked for', () => {
  const { sound } = fresh()
  const asked: SoundAsked[] = []
  const note = (event: Event): void => void asked.push((event as CustomEvent<SoundAsked>).detail)
  window.addEventListener('stillhand:sound', note)
  sound.chime('tubeFull')
  sound.speak('step.band')
  sound.setSilent(true)
  sound.chime('severe')
  window.removeEventListener('stillhand:sound', note)
  expect(asked).toEqual([
    { kind: 'chime', name: 'tubeFull' },
    { kind: 'prompt', name: 'step.band' },
  ])
  expect(document.documentElement.dataset).toMatchObject({
    lastChime: 'tubeFull',
    lastPrompt: 'step.band',
  })
})
