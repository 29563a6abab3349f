import Papa from 'papaparse'
import { PLACE_KINDS, type OrderPlace } from '../../core/day/listedOrder.ts'
import { zonedTime_ms } from '../../core/time/zone.ts'
import { readText } from '../../core/text/readText.ts'
import { quoted } from '../../core/text/shownText.ts'
import { createFindings, type Findings } from './findings.ts'
import type { OrderPiece, OrdersSite } from './orderPiece.ts'

/** Columns of a list beside those of an order. */
const LIST_COLUMNS = ['due', 'place', 'laboratory', 'fasting'] as const
type ListColumn = (typeof LIST_COLUMNS)[number]

/**
 * Rows below the heading, each with its heading as a file of its own; `undefined` for what cannot be told apart into
 * rows and is read as one order.
 */
export function manyOfCsv(text: string, site: OrdersSite): readonly OrderPiece[] | undefined {
  const { data, errors } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' })
  const [heading = [], ...rows] = data
  if (errors.some(({ type }) => type === 'Quotes') || rows.length === 0) return undefined
  const names = heading.map((name) => name.trim().toLowerCase())
  const isOfList = (index: number): boolean => LIST_COLUMNS.some((name) => name === names[index])
  const plain = heading.filter((_name, index) => !isOfList(index))
  return rows.map((row, index): OrderPiece => {
    const findings = createFindings(site.texts.order)
    const cell = (column: ListColumn): string => row[names.indexOf(column)]?.trim() ?? ''
    const own = row.filter((_cell, at) => !isOfList(at))
    return {
      where: String(index + 2),
      text: Papa.unparse([plain, own]),
      with: {
        ...dueOf(cell('due'), site, findings),
        ...placeOf(cell('place'), findings),
        ...laboratoryOf(cell('laboratory'), findings),
        ...fastingOf(cell('fasting'), findings),
      },
      faults: findings.refusals(),
    }
  })
}

/** `10:30` today, or `2026-11-26T10:30`, both local. */
function dueOf(typed: string, { today, zone }: OrdersSite, findings: Findings) {
  if (typed === '') return {}
  const hour = /^\d:/.test(typed) ? `0${typed}` : typed
  const at_ms = zonedTime_ms(hour.includes('T') ? hour : `${today}T${hour}`, zone)
  if (at_ms !== undefined) return { due: { kind: 'timed' as const, at_ms } }
  findings.refuse('due', { due: quoted(typed) })
  return {}
}

/** `ward: 3 East, bed 12`; without a kind before it, it is a room here. */
function placeOf(typed: string, findings: Findings): { readonly place?: OrderPlace } {
  const [, before, after] = /^(\w+):\s*(.*)$/.exec(typed) ?? []
  const kind = PLACE_KINDS.find((known) => known === before?.toLowerCase())
  const read = plainText(kind ? (after ?? '') : typed, findings)
  return read === '' ? {} : { place: { kind: kind ?? 'room', text: read } }
}

function laboratoryOf(typed: string, findings: Findings) {
  const laboratory = plainText(typed, findings)
  return laboratory === '' ? {} : { laboratory }
}

/** As in the catalog's tables: `yes`, or nothing. */
function fastingOf(typed: string, findings: Findings): { readonly fasting?: true } {
  const word = typed.toLowerCase()
  if (word === 'yes') return { fasting: true }
  if (word !== '' && word !== 'no') findings.refuse('fasting', { fasting: quoted(typed) })
  return {}
}

function plainText(typed: string, findings: Findings): string {
  const read = readText(typed, 'name')
  if (read.ok) return read.value
  findings.refuse('place', { place: quoted(typed) })
  return ''
}
