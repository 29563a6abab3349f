// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { createHowlerSound } from '../../../src/adapters/sound/howlerSound.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { soundContract } from '../../contract/sound.contract.ts'
import { fakeOutputs } from '../../support/fakeOutputs.ts'
import { fake, Howler, LENGTH_s, resetHowler, sinks } from './fakeHowler.ts'

vi.mock('howler', () => import('./fakeHowler.ts'))

beforeEach(() => {
  vi.useFakeTimers()
  sinks.manner = 'right'
  resetHowler()
})
afterEach(() => {
  sinks.manner = 'none'
  vi.useRealTimers()
})

const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms))
const heard = (): string[] => [...fake.heard].map(({ path }) => path)
const PROMPT = 'prompts/af_heart/step.band.ogg'
const EAR = { id: 'id of Ear', name: 'Ear' }

function fresh(device: typeof EAR | 'none' = EAR) {
  fake.missing.add('prompts/af_heart/no.such.prompt.ogg')
  const outputs = fakeOutputs('Ear')
  const sound = createHowlerSound({
    base: 'http://localhost/',
    voice: 'af_heart',
    clock: createSystemClock('test'),
    devices: outputs.devices,
  })
  const edges: boolean[] = []
  sound.onSpeaking((speaking) => edges.push(speaking))
  sound.earpiece.use({ device: device === 'none' ? undefined : device, speakWithout: false })
  return { sound, outputs, edges, settled: () => wait(10_000) }
}

soundContract(
  'howler with an earpiece',
  () => fresh(),
  async () => wait(50),
)

describe('prompts to an ear', () => {
  it('are heard there, and the gate of the recognizer is closed meanwhile', async () => {
    const { sound, edges } = fresh()
    await wait(50)
    sound.speak('step.band')
    await wait(50)
    expect(Howler.ctx.sinkId).toBe(EAR.id)
    expect(heard()).toEqual([PROMPT])
    expect(edges).toEqual([true])
  })

  it('break off when it goes in the middle of one; the gate opens, and tones are heard at once', async () => {
    const { sound, outputs, edges } = fresh()
    await wait(50)
    sound.speak('step.band')
    await wait(500)
    outputs.unplug('Ear')
    expect(heard()).toEqual([])
    expect(edges).toEqual([true, false])
    sound.speak('step.needle')
    sound.chime('severe')
    await wait(50)
    expect(Howler.ctx.sinkId).toBe('')
    expect(heard()).toEqual(['chimes/severe.wav'])
    expect(edges).toEqual([true, false])
  })

  it('asked for before it went, and not yet begun, are never heard from the loudspeaker', async () => {
    const { sound, outputs } = fresh()
    await wait(50)
    sound.speak('step.band')
    outputs.unplug('Ear')
    outputs.plug('Ear')
    await wait(3000)
    expect(fake.begun).toEqual([])
  })

  it('are heard again once it is back', async () => {
    const { sound, outputs } = fresh()
    await wait(50)
    outputs.unplug('Ear')
    await wait(50)
    outputs.plug('Ear')
    await wait(50)
    sound.speak('step.band')
    await wait(50)
    expect([Howler.ctx.sinkId, heard()]).toEqual([EAR.id, [PROMPT]])
  })

  it('wait while another context takes the place of a closed one, which begins at the loudspeaker', async () => {
    const { sound } = fresh()
    sound.chime('heard')
    await wait(2000)
    fake.begun.length = 0
    Howler.ctx.become('closed')
    expect(Howler.ctx.sinkId).toBe('')
    sound.speak('step.band')
    await wait(50)
    expect(fake.begun).toEqual([])
    expect(Howler.ctx.sinkId).toBe(EAR.id)
    sound.speak('step.band')
    await wait(50)
    expect(heard()).toEqual([PROMPT])
  })

  it.each(['lies', 'refuses', 'hangs'] as const)(
    'are not spoken where the browser %s; alarms are heard',
    async (manner) => {
      sinks.manner = manner
      resetHowler()
      const { sound, edges } = fresh()
      await wait(3000)
      sound.speak('step.band')
      sound.chime('timeUp')
      await wait(50)
      expect(heard()).toEqual(['chimes/timeUp.wav'])
      expect(edges).toEqual([])
      expect(sound.earpiece.state()).toBe('refused')
    },
  )

  it('are spoken from the loudspeaker where none was chosen', async () => {
    const { sound } = fresh('none')
    sound.speak('step.band')
    await wait(50)
    expect(heard()).toEqual([PROMPT])
  })

  it('are not spoken where the browser cannot send sound anywhere, until a person allows the loudspeaker', async () => {
    sinks.manner = 'none'
    resetHowler()
    const { sound } = fresh()
    await wait(50)
    expect([sound.earpiece.choosing, sound.earpiece.state()]).toEqual(['none', 'unable'])
    sound.speak('step.band')
    await wait(50)
    expect(fake.begun).toEqual([])
    sound.earpiece.use({ device: EAR, speakWithout: true })
    await wait(50)
    sound.speak('step.band')
    await wait(LENGTH_s * 100)
    expect(heard()).toEqual([PROMPT])
  })
})
