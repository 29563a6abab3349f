import type { Page } from 'playwright-core'
import { base64Of, spokenFile, type MicWindow, type Said, type Voice } from './e2eMic.ts'
import { TALK, TALK_FILE } from './talk.ts'

/**
 * `inPause`: the talkers have just finished a sentence, and let one finish before the next; `inSilence`: a little later,
 * as who was not heard waits for silence; `overTalk`: they talk on.
 */
export type Moment = 'inPause' | 'inSilence' | 'overTalk'

export interface SaidAmidTalk extends Said {
  readonly moment: Moment
  /** How much of the phrase somebody talked over, 0..1. */
  readonly covered: number
}

interface Turn {
  readonly start_ms: number
  end_ms: number
}

interface TalkWindow extends MicWindow {
  stillhandTalk?: {
    readonly turns: Turn[]
    /** Resolves when it is that moment; what it gives is to be called at the phrase's end. */
    wait(moment: Moment): Promise<() => void>
  }
}

/** How long after a sentence has ended, or begun, the phrase is said. */
const INTO_ms: Readonly<Record<Moment, number>> = { inPause: 250, inSilence: 800, overTalk: 250 }

/** From now on people talk into the page's microphone, over and over, so much louder or softer than recorded. */
export async function startTalk(page: Page, gain_dB: number): Promise<void> {
  await page.evaluate(
    async ([base64, lines, gain, into_ms]) => {
      const mic = (window as TalkWindow).stillhandMic
      if (!mic) throw new Error('The page has no test microphone.')
      const sound = await mic.decode(base64)
      const turns: Turn[] = []
      let yielding = false
      const sleep = (length_ms: number) => new Promise((resolve) => setTimeout(resolve, length_ms))
      const until = async (isSo: () => boolean): Promise<void> => {
        while (!isSo()) await sleep(10)
      }
      const talkOn = async (): Promise<never> => {
        for (let i = 0; ; i = (i + 1) % lines.length) {
          const { start_s, end_s } = lines[i] ?? { start_s: 0, end_s: 0 }
          const turn = { start_ms: Date.now(), end_ms: Infinity }
          turns.push(turn)
          await mic.play(sound, { start_s, length_s: end_s - start_s, gain_dB: gain })
          turn.end_ms = Date.now()
          const pause_ms = 1000 * ((lines[i + 1]?.start_s ?? sound.duration) - end_s)
          await sleep(pause_ms)
          while (yielding) {
            await until(() => !yielding)
            await sleep(pause_ms)
          }
        }
      }
      const wait = async (moment: Moment) => {
        const turn = turns.at(-1)
        if (moment === 'overTalk') {
          await until(() => turns.at(-1) !== turn)
        } else {
          yielding = true
          await until(() => turns.at(-1)?.end_ms !== Infinity)
        }
        await sleep(into_ms[moment])
        return () => void (yielding = false)
      }
      ;(window as TalkWindow).stillhandTalk = { turns, wait }
      void talkOn()
    },
    [base64Of(TALK_FILE), TALK, gain_dB, INTO_ms] as const,
  )
}

/** Speaks one phrase into the page's microphone at such a moment of the talk. */
export async function sayAmidTalk(
  page: Page,
  voice: Voice,
  phrase: string,
  moment: Moment,
): Promise<SaidAmidTalk> {
  const { times, turns } = await page.evaluate(
    async ([base64, when]) => {
      const { stillhandMic: mic, stillhandTalk: talk } = window as TalkWindow
      if (!mic || !talk) throw new Error('Nobody talks on this page.')
      const sound = await mic.decode(base64)
      const finish = await talk.wait(when)
      const played = await mic.play(sound)
      finish()
      // What goes on is over by no time that can be handed out of the page.
      return {
        times: played,
        turns: talk.turns.map((turn) => ({ ...turn, end_ms: Math.min(turn.end_ms, Date.now()) })),
      }
    },
    [base64Of(spokenFile(voice, phrase)), moment] as const,
  )
  const { start_ms, end_ms } = times
  const covered_ms = turns.reduce(
    (sum, turn) =>
      sum + Math.max(0, Math.min(turn.end_ms, end_ms) - Math.max(turn.start_ms, start_ms)),
    0,
  )
  return { phrase, moment, ...times, covered: covered_ms / (end_ms - start_ms) }
}
