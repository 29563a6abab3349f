import { ownValue } from '../basics/ownValue.ts'
import type { DrawEvent } from './events.ts'
import { specimenNumber } from './specimenNumber.ts'
import type { DrawState } from './state.ts'

/** The label of a tube set aside says nothing about the one drawn in its place. */
export function unreadLabel(state: DrawState, tubeId: string): DrawState {
  const { [tubeId]: _read, ...readBack } = state.readBack
  return { ...state, readBack }
}

/** The tube needs a label that is read back: what was read or decided before counts no more. */
export function withLabelDue(state: DrawState, tubeId: string): DrawState {
  const unlabelled = state.unlabelled.filter((id) => id !== tubeId)
  return { ...unreadLabel(state, tubeId), unlabelled }
}

/** A tube set aside keeps its number and the laboratory's label that was on it; the next one needs others. */
export function renumbered(
  state: DrawState,
  { tubeId, redrawnAs }: Extract<DrawEvent, { type: 'tubeSwapped' }>,
): DrawState {
  const { [tubeId]: accession, ...accessions } = state.accessions
  const unread = { ...withLabelDue(state, tubeId), accessions }
  const gone = accession === undefined ? [] : [accession]
  if (redrawnAs === undefined) return { ...unread, lostNumbers: [...state.lostNumbers, ...gone] }
  const own = specimenNumber(state.opened.drawId, tubeId, ownValue(state.redrawn, tubeId))
  return {
    ...unread,
    redrawn: { ...state.redrawn, [tubeId]: redrawnAs },
    redrawnGiven: state.redrawnGiven + 1,
    lostNumbers: [...state.lostNumbers, ...gone, own],
  }
}
