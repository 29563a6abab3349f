import type { Stamp } from '../time/stamp.ts'
import { record, impossible, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import { RULES, type Rule } from './rules.ts'
import type { DrawState } from './state.ts'

/** Applies one row of the guard table. */
export function follow(rule: Rule, s: DrawState, now: Stamp, confirmed: boolean): Decision {
  const why = rule.impossible?.find(([test]) => test(s, now))?.[1]
  if (why) return impossible(why)
  if (s.closed && !openAfterClose(rule)) return impossible('closed')
  const ask = rule.ask?.find(([test]) => test(s, now))?.[1]
  if (ask && !confirmed) return { kind: 'ask', ask }
  const flags = (rule.flags ?? []).filter(([test]) => test(s, now))
  return record(
    ...rule.records(s, now),
    ...flags.map(([, flag]): DrawEvent => ({ type: 'flagRaised', flag })),
  )
}

/** After the close only the specimens' way and late trouble are recorded. */
function openAfterClose(rule: Rule): boolean {
  const late = [
    'spinStarted', 'courierTook', 'bleedingContinues', 'pressureOn', 'bleedingStopped', 'bandageOn', 'faint', 'needlestick', 'swelling',
    'sharpPain', 'droppedTube', 'unlabelledTube', 'nausea',
  ] as const // prettier-ignore
  return late.some((type) => RULES[type] === rule)
}
