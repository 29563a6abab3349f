import { isSpecimenNumber, specimenNumber } from './specimenNumber.ts'
import type { Command } from './commands.ts'
import { record, impossible, type Decision } from './decision.ts'
import * as draw from './facts.ts'
import type { DrawState } from './state.ts'

/** Read-back of one label: by voice or touch the next unread one, by scan the one that was scanned. */
export function decideLabel(s: DrawState, command: Command): Decision {
  if (s.closed) return impossible('closed')
  if (!draw.anyBlood(s)) return impossible('noSpecimens')
  const { drawId } = s.opened
  if (command.type === 'scanLabel') {
    const found = draw
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
  const next = draw.unread(s)[0]
  if (!next) return impossible('allReadBack')
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
