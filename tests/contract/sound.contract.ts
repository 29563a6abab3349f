import { describe, expect, it } from 'vitest'
import { CHIMES, SOUND_TROUBLES, type Sound } from '../../src/ports/sound.ts'

/** A sound under test; `settled` resolves once everything asked for has been played to its end. */
export interface SoundUnderTest {
  readonly sound: Sound
  readonly settled: () => Promise<void>
}

/**
 * What every player of sounds must do, wherever its sound goes. The key `app.test` exists; `no.such.prompt` does not.
 * @param ready waits until a fresh one may be heard
 */
export function soundContract(
  name: string,
  make: () => SoundUnderTest,
  ready: () => Promise<void> = () => Promise.resolve(),
): void {
  const fresh = async (): Promise<SoundUnderTest> => {
    const made = make()
    await ready()
    return made
  }
  const listening = (sound: Sound): boolean[] => {
    const edges: boolean[] = []
    sound.onSpeaking((speaking) => edges.push(speaking))
    return edges
  }

  describe(`${name} as a sound`, () => {
    it('tells that a prompt begins, then that it has ended', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      sound.speak('app.test')
      await settled()
      expect(edges).toEqual([true, false])
    })

    it('never tells twice that speaking began or ended, however prompts follow each other', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      sound.speak('app.test')
      sound.speak('step.band')
      await settled()
      sound.speak('app.test')
      sound.hush()
      sound.hush()
      await settled()
      expect(edges.length).toBeGreaterThanOrEqual(2)
      expect(edges).toEqual(edges.map((_, i) => i % 2 === 0))
      expect(edges.at(-1)).toBe(false)
    })

    it('does not close the gate of the recognizer for chimes', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      CHIMES.forEach((chime) => sound.chime(chime))
      await settled()
      expect(edges).toEqual([])
    })

    it('takes a prompt that does not exist without throwing and leaves the gate open', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      expect(() => sound.speak('no.such.prompt')).not.toThrow()
      await settled()
      expect(edges.filter(Boolean)).toHaveLength(edges.filter((edge) => !edge).length)
      sound.speak('app.test')
      await settled()
      expect(edges.slice(-2)).toEqual([true, false])
    })

    it('takes any volume without throwing and goes on speaking', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      for (const volume of [0, 0.5, 1, 7, -1]) expect(() => sound.setVolume(volume)).not.toThrow()
      sound.speak('app.test')
      await settled()
      expect(edges).toEqual([true, false])
    })

    it('tells nothing to a listener that has left', async () => {
      const { sound, settled } = await fresh()
      const edges: boolean[] = []
      const stays = listening(sound)
      sound.onSpeaking((speaking) => edges.push(speaking))()
      sound.speak('app.test')
      await settled()
      expect(edges).toEqual([])
      expect(stays).toEqual([true, false])
    })

    it('answers how a test of the alarm went, the same to two who ask at once, with the gate open', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      const outcomes = [sound.test(), sound.test()]
      await settled()
      const [first, second] = await Promise.all(outcomes)
      expect(['played', 'silent', ...SOUND_TROUBLES]).toContain(first)
      expect(second).toBe(first)
      expect(edges).toEqual([])
    })

    it('sounds any chime that is named as a test, with the gate open', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      for (const chime of CHIMES) {
        const outcome = sound.test(chime)
        await settled()
        expect(['played', 'silent', ...SOUND_TROUBLES]).toContain(await outcome)
      }
      expect(edges).toEqual([])
    })

    it('tells that it is silent in silent mode, and plays nothing', async () => {
      const { sound, settled } = await fresh()
      const edges = listening(sound)
      sound.setSilent(true)
      const outcome = sound.test()
      await settled()
      expect(await outcome).toBe('silent')
      expect(edges).toEqual([])
    })
  })
}
