import type { Stamp } from '../time/stamp.ts'
import { closing } from './closing.ts'
import type { Command } from './commands.ts'
import { decideApp } from './decideApp.ts'
import { decideLabel } from './decideLabel.ts'
import { record, senseless, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import { EXCEPTION_TABLE, isSevere } from './exceptionTable.ts'
import * as is from './facts.ts'
import { putOn, RULES, shortBy, type Rule } from './rules.ts'
import type { DrawState } from './state.ts'
import { undo } from './undo.ts'

/**
 * Turns a command into events. Pure: the state, the command and the time decide alone.
 * What did happen is always recorded, flagged where it should not have been; only what cannot be true
 * (a second needle while one is in) or would end the draw unsafely is turned down, with the reason.
 * `confirmed` says that the question a command raises has been answered with yes.
 */
export function decide(s: DrawState, command: Command, now: Stamp, confirmed = false): Decision {
  const app = decideApp(s, command)
  if (app) return app
  if (!s.opened) return senseless('notClosed')
  const decision = decideFact(s, command, now, confirmed)
  if (decision.kind !== 'record') return decision
  return record(...decision.events, ...ended(s, command))
}

function decideFact(s: DrawState, command: Command, now: Stamp, confirmed: boolean): Decision {
  switch (command.type) {
    case 'goBack':
      return undo(s)
    case 'endDraw':
    case 'specimensRacked':
      return closing(s, command.type, confirmed)
    case 'exceptionHandled':
      return handled(s)
    case 'labelMatches':
    case 'labelWrong':
    case 'scanLabel':
      return decideLabel(s, command)
    case 'tubeOnNamed':
      return follow(putOn(command.tubeId), s, now, confirmed)
    case 'tubeShortBy':
      return follow(shortBy(command.estimate_mL), s, now, confirmed)
    case 'chooseArm':
      if (is.needleIsIn(s)) return senseless('needleIsIn')
      return record({ type: 'siteChosen', arm: command.arm })
    case 'chooseVein':
      if (is.needleIsIn(s)) return senseless('needleIsIn')
      if (!s.puncture.arm) return senseless('notDecided')
      return record({ type: 'siteChosen', arm: s.puncture.arm, vein: command.vein })
    case 'notPrepared':
      return record(
        { type: 'notPrepared', what: command.what },
        { type: 'exceptionRaised', kind: 'notPrepared', note: command.what },
      )
    case 'nameDecision':
      if (s.preparation !== 'notPrepared') return senseless('nothingOpen')
      return record(
        { type: 'decisionNamed', decision: command.decision, by: command.by },
        {
          type: 'exceptionEnded',
          kind: 'notPrepared',
          how: `${command.decision}, decided by ${command.by}`,
        },
      )
    case 'raise':
      return record({
        type: 'exceptionRaised',
        kind: command.kind,
        ...(command.note ? { note: command.note } : {}),
      })
    default: {
      const rule = command.type in RULES ? RULES[command.type as keyof typeof RULES] : undefined
      return rule ? follow(rule, s, now, confirmed) : senseless('nothingOpen')
    }
  }
}

function follow(rule: Rule, s: DrawState, now: Stamp, confirmed: boolean): Decision {
  const why = rule.senseless?.find(([test]) => test(s, now))?.[1]
  if (why) return senseless(why)
  if (s.closed && !openAfterClose(rule)) return senseless('closed')
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
  const late = ['spinStarted', 'courierTook', 'bleedingContinues', 'bleedingStopped', 'faint', 'needlestick', 'swelling', 'sharpPain', 'droppedTube', 'nausea'] as const // prettier-ignore
  return late.some((type) => RULES[type] === rule)
}

/** Ends the newest exception that may be ended by saying that it is dealt with. */
function handled(s: DrawState): Decision {
  const open = s.exceptions.at(-1)
  if (!open) return senseless('nothingOpen')
  if (open.kind === 'notPrepared') return senseless('notDecided')
  const bodily = isSevere(open.kind) && !is.bodyIsSafe(s)
  if (bodily) return senseless('notSafeYet')
  return record({ type: 'exceptionEnded', kind: open.kind, how: 'exceptionHandled' })
}

/** Exceptions that the command itself brings to an end. */
function ended(s: DrawState, command: Command): DrawEvent[] {
  return s.exceptions
    .filter((open) =>
      (EXCEPTION_TABLE[open.kind].endedBy as readonly string[]).includes(command.type),
    )
    .map((open) => ({ type: 'exceptionEnded', kind: open.kind, how: command.type }))
}
