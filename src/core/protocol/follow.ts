import { defined } from '../basics/defined.ts'
import type { Stamp } from '../time/stamp.ts'
import { rowOf, type RuledCommand } from './commandTable.ts'
import { impossible, record, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import type { Rule } from './rule.ts'
import { RULES } from './rules.ts'
import type { DrawState } from './state.ts'

/** Applies one row of the guard table, or a rule made for a tube that the person names. */
export function follow(
  command: RuledCommand,
  s: DrawState,
  now: Stamp,
  confirmed: boolean,
  rule: Rule = RULES[command],
): Decision {
  const why = rule.impossible?.find(([test]) => test(s, now))?.[1]
  if (why) return impossible(why)
  if (s.closed && !rowOf(command).afterClose) return impossible('closed')
  const ask = rule.ask?.find(([test]) => test(s, now))?.[1]
  if (ask && !confirmed)
    return defined({ kind: 'ask' as const, ask, otherwise: rule.otherwise?.(s) })
  const flags = (rule.flags ?? []).filter(([test]) => test(s, now))
  return record(
    ...rule.records(s, now),
    ...flags.map(([, flag]): DrawEvent => ({ type: 'flagRaised', flag })),
  )
}
