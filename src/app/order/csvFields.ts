import Papa from 'papaparse'
import { quoted } from '../../core/text/shownText.ts'
import type { Findings } from './findings.ts'
import type { OrderFields } from './orderFields.ts'

const COLUMNS = [
  'fullName',
  'familyName',
  'givenNames',
  'birthDate',
  'recordNumber',
  'sex',
  'orderNumber',
  'provider',
  'priority',
  'tests',
] as const
type Column = (typeof COLUMNS)[number]
const NEEDED: readonly Column[] = ['birthDate', 'recordNumber', 'tests']

/** A heading, one order, and one row to see that there is another. */
const MOST_ROWS = 3
const MOST_COLUMNS = 50

/**
 * Reads an order from CSV: a row of column names and one row below it. Tests are parted by semicolons; column order
 * and the case of their names do not matter, and a missing priority is routine.
 */
export function csvFields(text: string, findings: Findings): OrderFields | undefined {
  const { data, errors } = Papa.parse<string[]>(text, {
    skipEmptyLines: 'greedy',
    preview: MOST_ROWS,
  })
  const broken = errors.find(({ type }) => type === 'Quotes')
  if (broken) {
    findings.refuse('openQuote', { row: (broken.row ?? 0) + 1 })
    return undefined
  }
  const [heading = [], row, ...more] = data
  const names = heading.map((name) => name.trim().toLowerCase())
  const places = new Map(names.map((name, index) => [name, index]))
  const sound = headingIsSound(heading, names, places, findings)
  if (!sound) return undefined
  if (!row) findings.refuse('noRow')
  if (more.length > 0) findings.refuse('twoRows')
  if (row && row.length > names.length) findings.refuse('cellTooMany')
  const cell = (column: Column): string =>
    row?.[places.get(column.toLowerCase()) ?? -1]?.trim() ?? ''
  const tests = cell('tests')
    .split(';')
    .map((test) => test.trim())
    .filter((test) => test !== '')
  return {
    fullName: cell('fullName'),
    familyName: cell('familyName'),
    givenNames: cell('givenNames'),
    birthDate: cell('birthDate'),
    recordNumber: cell('recordNumber'),
    sex: cell('sex'),
    orderNumber: cell('orderNumber'),
    provider: cell('provider'),
    priority: cell('priority') || 'routine',
    tests: tests.map((value, index) => ({
      item: `Test ${index + 1}`,
      names: [{ by: 'any', value }],
    })),
  }
}

function headingIsSound(
  heading: readonly string[],
  names: readonly string[],
  places: ReadonlyMap<string, number>,
  findings: Findings,
): boolean {
  const has = (column: Column): boolean => places.has(column.toLowerCase())
  const named: readonly Column[] = has('fullName') || has('familyName') ? [] : ['familyName']
  const missing = [...named, ...NEEDED.filter((column) => !has(column))]
  const known: readonly string[] = COLUMNS.map((column) => column.toLowerCase())
  const unknown = heading.filter((_name, index) => !known.includes(names[index] ?? ''))
  const twice = COLUMNS.filter(
    (column) => names.indexOf(column.toLowerCase()) !== names.lastIndexOf(column.toLowerCase()),
  )
  if (missing.length > 0) {
    findings.refuse('columnsMissing', { missing: missing.join(', '), known: COLUMNS.join(', ') })
  } else if (unknown.length > 0) {
    const shown = unknown.slice(0, MOST_COLUMNS).map((name) => quoted(name.trim(), 30))
    findings.refuse('columnsUnknown', { unknown: shown.join(', ') })
  }
  if (twice.length > 0) findings.refuse('columnsTwice', { twice: twice.join(', ') })
  return missing.length === 0 && unknown.length === 0 && twice.length === 0
}
