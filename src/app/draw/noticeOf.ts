import { bandIsOn } from '../../core/protocol/facts.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import type { Notice } from '../view/drawViewTypes.ts'
import type { Words } from '../site/words.ts'
import type { DrawChange } from './drawSession.ts'

/** What to tell after a change: the gravest flag, an exception, a gap, a cue; in words, with what to do now. */
export function noticeOf({ before, after, entries }: DrawChange, words: Words): Notice | undefined {
  const warn = (text: string | undefined): Notice | undefined =>
    text === undefined ? undefined : { tone: 'warn', text }
  for (const { event } of entries) {
    if (event.type === 'flagRaised') return warn(words.flags[event.flag])
    if (event.type === 'exceptionRaised') {
      const row = words.exceptions[event.kind]
      return warn(row && `${row.title}. ${row.instruction}`)
    }
    if (event.type === 'awayNoticed') {
      const band = event.bandWasOn || bandIsOn(after) ? ' The band was on: check it now.' : ''
      return warn(`The app was away for ${minutesSeconds(event.away_ms)}.${band}`)
    }
    if (event.type === 'entryUndone') {
      const undone = before.kept.find(({ seq }) => seq === event.seq)
      const what = undone ? ` (${undone.event.type})` : ''
      return {
        tone: 'info',
        text: `Taken back: entry ${event.seq}${what}. It stays in the record as said in error.`,
      }
    }
  }
  return undefined
}
