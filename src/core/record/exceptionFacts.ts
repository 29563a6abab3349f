import { defined } from '../basics/defined.ts'
import type { LogEntry } from '../protocol/entry.ts'
import type { ExceptionFact } from './drawFacts.ts'

/** Every exception with how it ended, if it did. The same kind may come more than once. */
export function exceptionFacts(kept: readonly LogEntry[]): ExceptionFact[] {
  const facts: ExceptionFact[] = []
  for (const { event, at } of kept) {
    if (event.type === 'exceptionRaised') {
      const { kind, tubeId, note } = event
      facts.push(defined({ kind, at, tubeId, note }))
    }
    if (event.type === 'exceptionEnded') {
      const index = facts.findLastIndex((fact) => fact.kind === event.kind && !fact.ended)
      const open = facts[index]
      if (open) facts[index] = { ...open, ended: { at, how: event.how } }
    }
  }
  return facts
}
