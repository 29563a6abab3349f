import { clocksOf } from './clocks.ts'
import type { Command } from './commands.ts'
import { clockId, cueKey, writeCue } from './cueId.ts'
import { record, impossible, type Decision } from './decision.ts'
import type { DrawEvent } from './events.ts'
import { bandIsOn, exceptionIsOpen } from './facts.ts'
import type { DrawState } from './state.ts'

type AppCommand = Extract<
  Command,
  {
    type:
      | 'giveCue'
      | 'noticeAway'
      | 'noticeClockStep'
      | 'addNote'
      | 'choosePatientLanguage'
      | 'noteExposure'
      | 'approveBlood'
      | 'handOver'
      | 'revisePlan'
      | 'makeAddendum'
  }
>

/** Commands that come from the app itself or add to the record without being a step. */
export function decideApp(s: DrawState, command: AppCommand): Decision {
  switch (command.type) {
    case 'giveCue':
      return giveCue(s, command)
    case 'noticeAway':
      return record({ type: 'awayNoticed', away_ms: command.away_ms, bandWasOn: bandIsOn(s) })
    case 'noticeClockStep':
      return record(
        { type: 'clockStepped', by_ms: command.by_ms },
        { type: 'flagRaised', flag: 'clockUncertain' },
      )
    case 'addNote':
      if (s.closed) return impossible('closed')
      return command.text.trim()
        ? record({ type: 'noteAdded', text: command.text })
        : impossible('nothingOpen')
    case 'approveBlood':
      if (s.closed) return impossible('closed')
      return command.by.trim() && command.why.trim()
        ? record({ type: 'bloodApproved', by: command.by, why: command.why })
        : impossible('notDecided')
    case 'choosePatientLanguage':
      if (s.closed) return impossible('closed')
      return s.patientLanguage === command.language
        ? impossible('alreadyDone')
        : record({ type: 'patientLanguageChosen', language: command.language })
    case 'noteExposure':
      return s.seen.includes('needlestick') && command.text.trim()
        ? record({ type: 'exposureNoted', text: command.text })
        : impossible('nothingOpen')
    case 'handOver':
      if (s.collector.id === command.to.id) return impossible('alreadyDone')
      return record(
        { type: 'exceptionRaised', kind: 'handover' },
        { type: 'collectorChanged', to: command.to },
        { type: 'exceptionEnded', kind: 'handover', how: 'exceptionHandled' },
      )
    case 'revisePlan':
      if (s.closed) return impossible('closed')
      return record({ type: 'planRevised', plan: command.plan, why: command.why })
    case 'makeAddendum': {
      if (!s.closed) return impossible('notClosed')
      const { by, text, why, wrongPerson } = command
      return record({ type: 'addendumMade', by, text, why, ...(wrongPerson && { wrongPerson }) })
    }
  }
}

/** A cue is logged once; the band's alarm and an overdue tube also open their exception. */
function giveCue(s: DrawState, command: Extract<Command, { type: 'giveCue' }>): Decision {
  const { cue, late_ms } = command
  const stored = writeCue(cue)
  if (s.cues.includes(cueKey(stored))) return impossible('alreadyDone')
  if (!clocksOf(s).some((clock) => clockId(clock) === stored.clock)) {
    return impossible('nothingOpen')
  }
  const events: DrawEvent[] = [{ type: 'cueGiven', ...stored, late_ms }]
  const bandIsUp = cue.kind === 'band' && cue.cue === 'up'
  if (bandIsUp && bandIsOn(s) && !exceptionIsOpen(s, 'bandOver')) {
    events.push({ type: 'exceptionRaised', kind: 'bandOver' })
  }
  const tubeIsLate = cue.kind === 'fill' && cue.cue === 'late'
  if (tubeIsLate && s.tubeOn && !exceptionIsOpen(s, 'slowFlow')) {
    events.push({ type: 'exceptionRaised', kind: 'slowFlow', tubeId: s.tubeOn })
  }
  return record(...events)
}
