import { NAME, type FhirContext } from './context.ts'
import type { Reference } from './resources.ts'

/** Who wrote the record: those who drew, then whoever only added to it, named as in the AuditEvent. */
export function authorsOf({ facts, refTo }: FhirContext): readonly Reference[] {
  const drew = new Map(facts.collectors.map(({ collector }) => [collector.id, collector]))
  const added = new Map(facts.addenda.map(({ by }) => [by.id, by]))
  return [
    ...[...drew.values()].map(({ id, name }) => refTo(NAME.collector(id), name)),
    ...[...added.values()]
      .filter(({ id }) => !drew.has(id))
      .map(({ name: display }) => ({ display })),
  ]
}
