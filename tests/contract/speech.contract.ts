import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Hearing, Speech, SpeechState } from '../../src/ports/speech.ts'

/** A speech adapter with somebody to speak to it. */
export interface SpeechRig {
  readonly speech: Speech
  /** Says a phrase in a quiet room and waits until all of it has been answered. */
  say(phrase: string): Promise<void>
  /** Lets the quiet room be heard for so long. */
  quiet(length_ms: number): Promise<void>
  close(): Promise<void>
}

/** What every speech adapter must do; `deaf` for one that hears nothing on purpose. */
export function speechContract(
  name: string,
  openRig: () => Promise<SpeechRig>,
  deaf: boolean = false,
): void {
  describe(`${name} as a speech adapter`, () => {
    let rig: SpeechRig
    let hearings: Hearing[]
    let states: SpeechState[]

    beforeAll(async () => {
      rig = await openRig()
      rig.speech.onHearing((hearing) => hearings.push(hearing))
      rig.speech.onState((state) => states.push(state))
    })
    afterAll(() => rig.close())
    beforeEach(() => {
      hearings = []
      states = []
    })
    const finals = (): string[] =>
      hearings.filter(({ final, text }) => final && text !== '').map(({ text }) => text)

    it('has told how it stands when start resolves, and is off after stop', async () => {
      rig.speech.setPhrases(['needle in', 'band on'])
      await rig.speech.start()
      expect(states.at(-1)?.kind).toBe(deaf ? 'off' : 'listening')
      await rig.speech.stop()
      expect(states.at(-1)?.kind).toBe('off')
    })

    it('hears nothing while it is stopped', async () => {
      await rig.say('needle in')
      expect(hearings).toEqual([])
    })

    it('starts again after a stop, as deaf or as keen as before', async () => {
      await rig.speech.start()
      await rig.say('needle in')
      expect(finals()).toEqual(deaf ? [] : ['needle in'])
    })

    it('hears nothing in silence', async () => {
      await rig.quiet(3000)
      expect(hearings.filter(({ text }) => text !== '')).toEqual([])
    })

    if (!deaf) {
      it('gives partial results before the final one, all of one utterance', async () => {
        await rig.say('needle in')
        const spoken = hearings.filter(({ text }) => text !== '')
        expect(spoken.map(({ final }) => final)).toEqual([
          ...spoken.slice(1).map(() => false),
          true,
        ])
        expect(new Set(spoken.map(({ utterance }) => utterance)).size).toBe(1)
        expect(spoken.length).toBeGreaterThan(1)
      })

      it('gives times that do not run back', async () => {
        await rig.say('band on')
        const times = hearings.map(({ mono_ms }) => mono_ms)
        expect(times.length).toBeGreaterThan(1)
        expect(times).toEqual([...times].sort((a, b) => a - b))
      })

      it('numbers each utterance higher than the one before', async () => {
        await rig.say('band on')
        await rig.say('needle in')
        const numbers = hearings.filter(({ text }) => text !== '').map(({ utterance }) => utterance)
        expect(numbers).toEqual([...numbers].sort((a, b) => a - b))
        expect(new Set(numbers).size).toBe(2)
      })

      it('hears the new phrases after a change, and only those', async () => {
        rig.speech.setPhrases(['fresh tube', 'tube complete'])
        await rig.say('fresh tube')
        expect(finals()).toEqual(['fresh tube'])
        hearings = []
        await rig.say('needle in')
        expect(finals().join(' ')).not.toContain('needle')
      })

      it('counts a change of phrases as the start of an utterance, and the same phrases as no change', async () => {
        await rig.say('fresh tube')
        const before = hearings.at(-1)?.utterance ?? 0
        rig.speech.setPhrases(['fresh tube', 'tube complete'])
        hearings = []
        await rig.say('fresh tube')
        expect(hearings.at(-1)?.utterance).toBe(before + 1)
        rig.speech.setPhrases(['mixing done'])
        hearings = []
        await rig.say('mixing done')
        expect(hearings.at(-1)?.utterance).toBe(before + 3)
      })
    }

    it('tells those who have left nothing more', async () => {
      const late: unknown[] = []
      const ends = [
        rig.speech.onHearing((hearing) => late.push(hearing)),
        rig.speech.onState((state) => late.push(state)),
        rig.speech.onLevel((level) => late.push(level)),
      ]
      ends.forEach((end) => end())
      await rig.say('mixing done')
      await rig.speech.stop()
      expect(late).toEqual([])
    })
  })
}
