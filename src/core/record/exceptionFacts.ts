import { defined } from '../basics/defined.ts'
import type { LogEntry } from '../protocol/entry.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { ExceptionFact } from './drawFacts.ts'

/**
 * Every exception with how it ended, if it did. The same kind may come more than once; saying which tube has no label
 * is no further one, it names the one that is open.
 */
export function exceptionFacts(kept: readonly LogEntry[]): ExceptionFact[] {
  const facts: ExceptionFact[] = []
  for (const { event, at } of kept) {
    if (event.type === 'exceptionRaised') {
      const { kind, tubeId, note } = event
      if (!named(facts, kind, tubeId)) facts.push(defined({ kind, at, tubeId, note }))
    }
    if (event.type === 'unlabelledSettled') named(facts, 'unlabelledTube', event.tubeId)
    if (event.type === 'exceptionEnded') {
      const index = facts.findLastIndex((fact) => fact.kind === event.kind && !fact.ended)
      const open = facts[index]
      if (open) facts[index] = { ...open, ended: { at, how: event.how } }
    }
  }
  return facts
}

/** Gives the open tube without a label its name, or the one said last; false where there is none to be named. */
function named(facts: ExceptionFact[], kind: ExceptionKind, tubeId: string | undefined): boolean {
  if (kind !== 'unlabelledTube' || tubeId === undefined) return false
  const index = facts.findLastIndex((fact) => fact.kind === kind && !fact.ended)
  const open = facts[index]
  if (open) facts[index] = { ...open, tubeId }
  return open !== undefined
}
