import type { DrawDigest } from '../../app/view/drawDigest.ts'
import type { Outcome } from '../../core/protocol/events.ts'
import type { Draw } from './DrawList.tsx'

/** What is looked for among earlier draws. */
export interface DrawFilter {
  /** Part of a name, of a record number or of the number of a draw. */
  readonly typed: string
  readonly outcome?: Outcome
}

export const NO_FILTER: DrawFilter = { typed: '' }

export const isFiltered = ({ typed, outcome }: DrawFilter): boolean =>
  typed.trim() !== '' || outcome !== undefined

/** Whether a draw is what is looked for; without its digest only by its name and number. */
export function passes(
  draw: Pick<Draw, 'patientName' | 'drawId'>,
  digest: Pick<DrawDigest, 'recordNumber' | 'strip'> | undefined,
  { typed, outcome }: DrawFilter,
): boolean {
  if (outcome !== undefined && digest?.strip.outcome !== outcome) return false
  const told = plain(`${draw.patientName} ${draw.drawId} ${digest?.recordNumber ?? ''}`)
  return plain(typed)
    .split(' ')
    .every((part) => told.includes(part))
}

const plain = (text: string): string =>
  text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/g, ' ').trim()
