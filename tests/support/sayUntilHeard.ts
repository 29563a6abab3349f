import type { Page } from 'playwright-core'
import type { LogEntry } from '../../src/core/protocol/entry.ts'
import { untilLogged } from './e2eDraw.ts'
import { heardSince } from './e2eHearings.ts'
import { readLog } from './e2eLog.ts'
import type { Said } from './e2eMic.ts'
import { PROMPTS, quiet } from './e2eSounds.ts'

/** From the end of a phrase to its entry: the final result comes up to about a second later. */
export const HEARD_WITHIN_ms = 2500
/** A person who is not heard says it again; more often than this would be a fault. */
export const TRIES = 3

export interface Spoken extends Said {
  /** Every time that it was said; the last one was heard. */
  readonly tries: readonly Said[]
  readonly entries: readonly LogEntry[]
}

/** How often it is said, and how long each time is waited for; where how well it hears is not what is tried, more. */
export interface Patience {
  readonly tries: number
  readonly within_ms: number
}

/** Speaks once no prompt plays, and again if nothing has come of it. */
export async function sayUntilHeard(
  page: Page,
  phrase: string,
  speak: (tried: number) => Promise<Said>,
  patience: Patience = { tries: TRIES, within_ms: HEARD_WITHIN_ms },
): Promise<Spoken> {
  const tries: Said[] = []
  while (tries.length < patience.tries) {
    await quiet(page, PROMPTS)
    const before = (await readLog(page)).length
    const said = await speak(tries.length)
    tries.push(said)
    const log = await untilLogged(page, before, ({ heard }) => heard === phrase, patience.within_ms)
    if (log)
      return { ...said, tries, entries: log.slice(before).filter(({ heard }) => heard === phrase) }
  }
  const heard = await heardSince(page, tries[0]?.start_ms ?? 0)
  throw new Error(
    `"${phrase}" was said ${patience.tries} times and not heard. The recognizer:\n${heard.join('\n')}`,
  )
}
