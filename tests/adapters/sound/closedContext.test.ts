// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { createHowlerSound } from '../../../src/adapters/sound/howlerSound.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import type { SoundTrouble } from '../../../src/ports/sound.ts'
import { fake, Howler, resetHowler } from './fakeHowler.ts'

vi.mock('howler', () => import('./fakeHowler.ts'))

beforeEach(() => {
  vi.useFakeTimers()
  resetHowler()
})
afterEach(() => vi.useRealTimers())

const wait = async (ms: number): Promise<void> => void (await vi.advanceTimersByTimeAsync(ms))
const heard = (): string[] => [...fake.heard].map(({ path }) => path)

function fresh() {
  const clock = createSystemClock('test')
  const sound = createHowlerSound({ base: 'http://localhost/', voice: 'af_heart', clock })
  const troubles: (SoundTrouble | undefined)[] = []
  sound.onTrouble((trouble) => troubles.push(trouble))
  return { sound, troubles }
}

describe('an audio context', () => {
  it('closed for good is replaced: sounds are loaded anew and heard, also what is asked for at once', async () => {
    const { sound, troubles } = fresh()
    sound.chime('heard')
    await wait(100)
    const old = Howler.ctx
    Howler.ctx.become('closed')
    sound.chime('timeUp')
    await wait(100)
    expect(Howler.ctx).not.toBe(old)
    expect(heard()).toEqual(['chimes/timeUp.wav'])
    // The new one is watched as the old one was.
    Howler.ctx.become('closed')
    sound.speak('step.band')
    await wait(100)
    expect(heard()).toEqual(['prompts/af_heart/step.band.ogg'])
    expect(troubles.filter((trouble) => trouble !== undefined)).toEqual([])
  })

  it('closed without a word is found closed when the next sound is asked for', async () => {
    const { sound } = fresh()
    await wait(100)
    Howler.ctx.state = 'closed'
    sound.chime('timeUp')
    await wait(100)
    sound.chime('timeUp')
    await wait(100)
    expect(heard()).toContain('chimes/timeUp.wav')
  })
})
