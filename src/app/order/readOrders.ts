import { defined } from '../../core/basics/defined.ts'
import type { Result } from '../../core/basics/result.ts'
import { createFindings } from './findings.ts'
import { manyOfBundle } from './fhir/manyOfBundle.ts'
import { manyOfCsv } from './manyOfCsv.ts'
import type { ListedWith, OrdersSite } from './orderPiece.ts'
import { readOrder, type OrderReading, type OrderSite } from './readOrder.ts'

/** One order of a file, read or refused by itself. */
export interface ReadPiece {
  readonly where: string
  readonly reading: Result<OrderReading>
  readonly with: ListedWith
  /** Addresses of its requests, in their order, where the file names each. */
  readonly requests?: readonly string[]
}

/** More than a day has for one team. */
const MOST_PIECES = 2000

/**
 * Reads every order of a FHIR R4 Bundle (JSON) or of a CSV file, one a row. Each is read as if it had come alone, so
 * that one which is refused keeps no other back; a file that is no list is one piece, with its reason.
 */
export function readOrders(text: string, site: OrdersSite): readonly ReadPiece[] {
  const trimmed = text.replace(/^\uFEFF/, '').trim()
  const found = trimmed.startsWith('{')
    ? manyOfBundle(trimmed, site.zone)
    : manyOfCsv(trimmed, site)
  const pieces = found ?? [{ where: '', text, with: {} }]
  // Taken in part, a wrong file would have to be taken off the list order by order.
  if (pieces.length > MOST_PIECES) return [refusedWhole(pieces.length, site)]
  return pieces.map((piece): ReadPiece => {
    const reading = readOrder(piece.text, site)
    const faults = [...(piece.faults ?? []), ...(reading.ok ? [] : reading.faults)]
    return {
      where: piece.where,
      with: defined(piece.with),
      ...(piece.requests && { requests: piece.requests }),
      reading: faults.length > 0 ? { ok: false, faults } : reading,
    }
  })
}

function refusedWhole(n: number, { texts }: OrderSite): ReadPiece {
  const findings = createFindings(texts.order)
  findings.refuse('tooMany', { n, most: MOST_PIECES })
  return { where: '', with: {}, reading: { ok: false, faults: findings.refusals() } }
}
