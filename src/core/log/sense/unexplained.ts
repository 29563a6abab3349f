import { defined } from '../../basics/defined.ts'
import { allergiesOf } from '../../order/order.ts'
import { PLAIN_COMMANDS, UNLABELLED_NUMBERS, type Command } from '../../protocol/commands.ts'
import { CONSENT_HOW, CONSENT_WAYS } from '../../protocol/consentHow.ts'
import { decide } from '../../protocol/decide.ts'
import type { DrawLog, LogEntry } from '../../protocol/entry.ts'
import { END_REASONS, type DrawEvent } from '../../protocol/events.ts'
import { evolve } from '../../protocol/evolve.ts'
import { openedBy } from '../../protocol/openedBy.ts'
import type { DrawState } from '../../protocol/state.ts'
import { onCourse } from '../../time/stamp.ts'
import { canonicalJson } from '../canonicalJson.ts'

/** Longer logs are not played again: it would hold up whoever waits for the verdict. */
const MOST_PLAYED = 500
/** More events than one confirmation brings about. */
const MOST_AT_ONCE = 12

/**
 * Plays a log again and gives the numbers of entries that nobody's confirmation would have brought about in this
 * version of the app, at that point of that draw. It is a hint and no proof: other versions record other things, and
 * two pages that wrote into one draw leave such entries too.
 */
export function unexplained({ entries }: DrawLog): readonly number[] {
  const [opening, ...rest] = entries
  if (opening?.event.type !== 'drawOpened' || entries.length > MOST_PLAYED) return []
  const odd: number[] = []
  let state = openedBy(opening.event, opening)
  for (const group of moments(rest)) {
    const [first] = group
    if (first && isSaid(first) && !isExplained(state, group)) odd.push(first.seq)
    state = group.reduce(evolve, state)
  }
  return odd
}

/** Entries of one moment: one look at the clocks, one source. Mostly one confirmation, rarely several. */
function moments(entries: readonly LogEntry[]): LogEntry[][] {
  const groups: LogEntry[][] = []
  for (const entry of entries) {
    const last = groups.at(-1)
    if (last?.[0] && sameMoment(last[0], entry)) last.push(entry)
    else groups.push([entry])
  }
  return groups
}

const sameMoment = (a: LogEntry, b: LogEntry): boolean =>
  a.at.boot === b.at.boot && a.at.mono_ms === b.at.mono_ms && a.source === b.source

const isSaid = ({ source }: LogEntry): boolean => source !== 'clock' && source !== 'app'

/** Do confirmations give these entries, one after the other? Each time the one that gives the most of them is taken. */
function isExplained(before: DrawState, moment: readonly LogEntry[]): boolean {
  let state = before
  let left = moment
  while (left.length > 0) {
    const given = given_n(state, left)
    if (given === 0) return false
    state = left.slice(0, given).reduce(evolve, state)
    left = left.slice(given)
  }
  return true
}

/** How many of the next entries one confirmation gives at the most; 0 when none gives them. */
function given_n(state: DrawState, [first, ...more]: readonly LogEntry[]): number {
  if (!first) return 0
  const at = onCourse(state.last.at, first.at)
  const next = [first, ...more.slice(0, MOST_AT_ONCE - 1)].map(({ event }) => event)
  let most = 0
  for (const command of commandsFor(state, next)) {
    for (const confirmed of [true, false]) {
      const decision = decide(state, command, at, confirmed)
      if (decision.kind !== 'record' || decision.events.length <= most) continue
      const given = next.slice(0, decision.events.length)
      // A shorter one may begin alike: a tube that is taken off short ends the slow flow only where that was so said.
      if (isSame(decision.events, given)) most = given.length
      if (most === next.length) return most
    }
  }
  return most
}

/**
 * A log from before the antiseptic, who agreed, or why a draw ended was recorded holds only that it was so; in one from
 * before redrawn tubes had numbers of their own a lost tube says nothing of the next.
 */
function isSame(decided: readonly DrawEvent[], given: readonly DrawEvent[]): boolean {
  const asThen = decided.map((event, i): DrawEvent => {
    const then = given[i]
    if (event.type === 'tubeSwapped' && then?.type === 'tubeSwapped' && !then.redrawnAs) {
      const { redrawnAs: _redrawnAs, ...swapped } = event
      return swapped
    }
    if (event.type === 'skinCleaned' && then?.type === 'skinCleaned' && !then.with)
      return { type: 'skinCleaned' }
    if (event.type === 'consentGiven' && then?.type === 'consentGiven') {
      if (!then.by && !then.form) return { type: 'consentGiven' }
      // Once also of those too young to agree themselves.
      if (!event.by && then.by === 'patient') return { ...event, by: then.by }
    }
    const untold = event.type === then?.type && 'reason' in event && !('reason' in then)
    if (untold && (event.type === 'drawClosed' || event.type === 'noFurtherPuncture')) {
      const { reason: _reason, ...ended } = event
      return ended
    }
    return event
  })
  return canonicalJson(asThen) === canonicalJson(given)
}

function commandsFor(state: DrawState, events: readonly DrawEvent[]): readonly Command[] {
  const wristband: Command = { type: 'scanLabel', text: state.opened.patient.recordNumber }
  return [...events.flatMap(commandOf), wristband, ...PLAIN_COMMANDS.map((type) => ({ type }))]
}

/** The commands that carry what an event holds. */
function commandOf(event: DrawEvent): readonly Command[] {
  switch (event.type) {
    case 'armSeen':
      return [{ type: 'armFinding', finding: event.finding }]
    case 'consentGiven':
      return CONSENT_WAYS.filter((how) => {
        const { by, form } = CONSENT_HOW[how]
        return by === event.by && form === event.form
      }).map((how) => ({ type: 'consentFrom', how }))
    case 'siteChosen': {
      const { arm, vein } = event
      const place: Command[] = [
        { type: 'chooseArm', arm },
        { type: 'chooseSide', arm },
      ]
      return vein ? [...place, { type: 'chooseVein', vein }] : place
    }
    case 'needleSetChosen':
      return [{ type: 'chooseSet', set: event.set }]
    case 'notPrepared':
      return [{ type: 'notPrepared', what: event.what }]
    case 'decisionNamed':
      return [defined({ ...event, type: 'nameDecision' as const })]
    case 'identifierChecked':
      return event.how && event.how !== 'patient' && event.how !== 'scan'
        ? [{ type: 'identified', by: event.how }]
        : []
    case 'answerTaken': {
      const told = allergiesOf(event.answer.antisepticAllergy)
      const { anticoagulant: kind, ageTold: age, feeding } = event.answer
      return [
        ...told.map((allergy): Command => ({ type: 'antisepticAllergy', allergy })),
        ...(kind && kind !== 'notAsked' ? [{ type: 'thinner', kind } as const] : []),
        ...(age ? [{ type: 'ageTold', age } as const] : []),
        ...(feeding ? [{ type: 'feeding', feeding } as const] : []),
      ]
    }
    case 'circleFilled':
      return event.finding === 'good' ? [] : [{ type: 'circleBad', finding: event.finding }]
    case 'skinCleaned':
      return event.with ? [{ type: 'skinCleanWith', antiseptic: event.with }] : []
    case 'tubeOn':
      return [{ type: 'tubeOnNamed', tubeId: event.tubeId }]
    case 'wentToVein':
      return [{ type: 'goToVein', why: event.why }]
    case 'syringeFilled':
      return event.estimate_mL === undefined
        ? []
        : [{ type: 'syringeHolds', estimate_mL: event.estimate_mL }]
    case 'tubeOff':
      return event.estimate_mL === undefined
        ? []
        : [{ type: 'tubeShortBy', estimate_mL: event.estimate_mL }]
    case 'labelReadBack':
      return [{ type: 'scanLabel', text: event.specimenNumber }]
    case 'lotRead': {
      const { lot, expires } = event
      const date = expires === undefined ? '' : `(17)${expires.slice(2).replaceAll('-', '')}`
      return [{ type: 'scanLabel', text: `(10)${lot}${date}` }]
    }
    case 'accessionTaken': {
      const { tubeId, accession } = event
      return [
        { type: 'scanLabel', text: accession },
        { type: 'takeAccession', tubeId, text: accession },
      ]
    }
    case 'noFurtherPuncture':
    case 'drawClosed': {
      const reason = END_REASONS.find((known) => known === event.reason)
      return reason ? [{ type: 'endBecause', reason }] : []
    }
    case 'flagRaised':
      return event.detail === undefined ? [] : [{ type: 'scanLabel', text: event.detail }]
    case 'unlabelledSettled': {
      const { tubeId, how, by } = event
      return [{ type: 'settleUnlabelled', tubeId, how, by }]
    }
    case 'exceptionRaised': {
      if (event.kind === 'unlabelledTube' && event.tubeId !== undefined)
        return UNLABELLED_NUMBERS.map((number) => ({ type: 'unlabelledIs', number }))
      const { type: _type, ...raised } = event
      return [{ type: 'raise', ...raised }]
    }
    case 'collectorChanged':
      return [{ type: 'handOver', to: event.to }]
    case 'noteAdded':
      return [{ type: 'addNote', text: event.text }]
    case 'momentNoted':
      return event.at_ms === undefined
        ? []
        : [defined({ ...event, type: 'noteMoment' as const, at_ms: event.at_ms })]
    case 'sittingsLeftOut':
      return [{ type: 'leaveOut', sittings: event.sittings, why: event.why }]
    case 'seriesWentOn':
      return [{ ...event, type: 'goOnWithSeries' }]
    case 'bloodApproved':
      return [{ type: 'approveBlood', by: event.by, why: event.why }]
    case 'patientLanguageChosen':
      return [{ type: 'choosePatientLanguage', language: event.language }]
    case 'exposureNoted':
      return [{ type: 'noteExposure', text: event.text }]
    case 'planRevised':
      return [{ type: 'revisePlan', plan: event.plan, why: event.why }]
    case 'addendumMade':
      return [{ ...event, type: 'makeAddendum' }]
    default:
      return []
  }
}
