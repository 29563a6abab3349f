import Papa from 'papaparse'
import type { FieldsReading } from './orderFields.ts'

const COLUMNS = [
  'fullName',
  'birthDate',
  'recordNumber',
  'sex',
  'orderNumber',
  'provider',
  'priority',
  'tests',
] as const
type Column = (typeof COLUMNS)[number]
const NEEDED: readonly Column[] = ['fullName', 'birthDate', 'recordNumber', 'tests']

/**
 * Reads an order from CSV: a row of column names and one row below it. Tests are parted by semicolons; column order
 * and the case of their names do not matter, and a missing priority is routine.
 */
export function csvFields(text: string): FieldsReading {
  const { data, errors } = Papa.parse<string[]>(text, { skipEmptyLines: 'greedy' })
  const broken = errors.find(({ type }) => type === 'Quotes')
  if (broken) return refuse(`Row ${(broken.row ?? 0) + 1}: a quotation mark is not closed.`)
  const [names = [], row, ...more] = data
  const places = new Map(names.map((name, index) => [name.trim().toLowerCase(), index]))
  const missing = NEEDED.filter((column) => !places.has(column.toLowerCase()))
  if (missing.length > 0) {
    return refuse(`Row 1: columns missing: ${missing.join(', ')}. Known: ${COLUMNS.join(', ')}.`)
  }
  const unknown = names.filter((name) => !isColumn(name))
  if (unknown.length > 0) return refuse(`Row 1: columns not known: ${unknown.join(', ')}.`)
  if (!row) return refuse('Row 2: there is no order below the column names.')
  if (more.length > 0) return refuse('Row 3: a file holds one order, and there is another.')
  if (row.length > names.length) return refuse('Row 2: it has more cells than there are columns.')
  const cell = (column: Column): string => row[places.get(column.toLowerCase()) ?? -1]?.trim() ?? ''
  return {
    ok: true,
    fields: {
      fullName: cell('fullName'),
      birthDate: cell('birthDate'),
      recordNumber: cell('recordNumber'),
      sex: cell('sex'),
      orderNumber: cell('orderNumber'),
      provider: cell('provider'),
      priority: cell('priority') || 'routine',
      tests: cell('tests')
        .split(';')
        .map((test) => test.trim())
        .filter((test) => test !== ''),
    },
  }
}

const isColumn = (name: string): boolean =>
  COLUMNS.some((column) => column.toLowerCase() === name.trim().toLowerCase())

const refuse = (error: string): FieldsReading => ({ ok: false, errors: [error] })
