import { isSpecimenNumber, specimenNumber } from './specimenNumber.ts'
import type { Command } from './commands.ts'
import { record, senseless, type Decision } from './decision.ts'
import * as is from './facts.ts'
import type { DrawState } from './state.ts'

/** Read-back of one label: by voice or touch the next unread one, by scan the one that was scanned. */
export function decideLabel(s: DrawState, command: Command): Decision {
  if (s.closed) return senseless('closed')
  if (!is.anyBlood(s)) return senseless('noSpecimens')
  const drawId = s.opened?.drawId ?? ''
  if (command.type === 'scanLabel') {
    const found = is
      .specimens(s)
      .find(({ id }) => isSpecimenNumber(command.text, specimenNumber(drawId, id)))
    if (!found)
      return record({
        type: 'flagRaised',
        flag: 'labelMismatch',
        detail: command.text.trim().slice(0, 80),
      })
    return record(readBack(drawId, found.id, 'scan', true))
  }
  const next = is.unread(s)[0]
  if (!next) return senseless('allReadBack')
  if (command.type === 'labelMatches') return record(readBack(drawId, next.id, 'read', true))
  return record(readBack(drawId, next.id, 'read', false), {
    type: 'flagRaised',
    flag: 'labelMismatch',
    detail: specimenNumber(drawId, next.id),
  })
}

function readBack(drawId: string, tubeId: string, how: 'read' | 'scan', matches: boolean) {
  return {
    type: 'labelReadBack',
    tubeId,
    specimenNumber: specimenNumber(drawId, tubeId),
    how,
    matches,
  } as const
}
