import { isDay } from '../time/format.ts'
import { ADDITIVES } from './additives.ts'
import {
  SPECIMEN_KINDS,
  type Catalogue,
  type StockTube,
  type TestRow,
  type TubeRow,
} from './catalogue.ts'

/** Something wrong in a table. `row` counts the rows of data from 1. */
export interface Fault {
  readonly table: 'tests' | 'tubes' | 'stock'
  readonly row: number
  readonly column: string
  readonly text: string
}

type Say = (column: string, text: string) => void

/** Every fault in the site's tables: empty or repeated codes, unknown additives, volumes that cannot be. */
export function catalogueFaults({ tests, tubes }: Pick<Catalogue, 'tests' | 'tubes'>): Fault[] {
  return [...eachRow('tests', tests, testFaults), ...eachRow('tubes', tubes, tubeFaults)]
}

function eachRow<T extends { readonly code: string }>(
  table: 'tests' | 'tubes',
  rows: readonly T[],
  check: (row: T, say: Say) => void,
): Fault[] {
  const faults: Fault[] = []
  const seen = new Map<string, number>()
  rows.forEach((row, index) => {
    const say: Say = (column, text) => faults.push({ table, row: index + 1, column, text })
    const first = seen.get(row.code)
    if (row.code === '') say('code', 'The code is empty.')
    else if (first !== undefined) say('code', `"${row.code}" is already the code of row ${first}.`)
    else seen.set(row.code, index + 1)
    check(row, say)
  })
  return faults
}

function testFaults(test: TestRow, say: Say): void {
  if (test.name === '') say('name', 'The name is empty.')
  if (test.accepts.length === 0) say('specimen', 'No specimen is given.')
  for (const need of test.accepts) {
    if (!SPECIMEN_KINDS.includes(need.kind))
      say('specimen', `"${need.kind}" is not a kind of specimen.`)
    if (!ADDITIVES.includes(need.additive))
      say('specimen', `"${need.additive}" is not a known additive.`)
  }
  if (new Set(test.accepts.map((need) => need.additive)).size < test.accepts.length) {
    say('specimen', 'One additive is named twice.')
  }
  between(test.least_mL, 0.01, 50, 'least_mL', 'mL', say)
  between(test.preferred_mL, 0.01, 50, 'preferred_mL', 'mL', say)
  if (test.preferred_mL < test.least_mL) say('preferred_mL', 'Smaller than least_mL.')
  if (test.sharing === '') say('sharing', 'Write open, alone or the name of a group.')
  if (test.timeLimit_min !== undefined)
    between(test.timeLimit_min, 1, 20_160, 'timeLimit_min', 'min', say)
  if (test.timeLimitHeparin_min !== undefined) {
    between(test.timeLimitHeparin_min, 1, 20_160, 'timeLimitHeparin_min', 'min', say)
  }
  const temperatures = test.handling.filter((h) => h === 'ice' || h === 'warm' || h === 'roomOnly')
  if (temperatures.length > 1) say('handling', `${temperatures.join(' and ')} exclude each other.`)
}

function tubeFaults(tube: TubeRow, say: Say): void {
  if (tube.name === '') say('name', 'The name is empty.')
  if (!ADDITIVES.includes(tube.additive))
    say('additive', `"${tube.additive}" is not a known additive.`)
  between(tube.nominal_mL, 0.1, 50, 'nominal_mL', 'mL', say)
  between(tube.inner_mL, 0.1, 150, 'inner_mL', 'mL', say)
  if (tube.inner_mL <= tube.nominal_mL) say('inner_mL', 'Must be larger than nominal_mL.')
  between(tube.leastFill_pct, 1, 100, 'leastFill_pct', '%', say)
  between(tube.inversionsMin, 0, 50, 'inversionsMin', 'inversions', say)
  between(tube.inversionsMax, 0, 50, 'inversionsMax', 'inversions', say)
  if (tube.inversionsMax < tube.inversionsMin) say('inversionsMax', 'Smaller than inversionsMin.')
  if (tube.clot_min !== undefined) between(tube.clot_min, 1, 240, 'clot_min', 'min', say)
}

/** Faults in the tubes on hand. */
export function stockFaults(
  stock: readonly StockTube[],
  { tubes }: Pick<Catalogue, 'tubes'>,
): Fault[] {
  const codes = new Set(tubes.map((tube) => tube.code))
  const faults: Fault[] = []
  stock.forEach((lot, index) => {
    const say: Say = (column, text) => faults.push({ table: 'stock', row: index + 1, column, text })
    if (!codes.has(lot.tubeCode))
      say('tubeCode', `"${lot.tubeCode}" is not in the catalog of tubes.`)
    if (!isDay(lot.expires)) {
      say('expires', `"${lot.expires}" is not a date. Write it as 2027-12-31.`)
    }
    if (!Number.isInteger(lot.count)) say('count', `${lot.count} is not a whole number.`)
    else between(lot.count, 0, 100_000, 'count', 'tubes', say)
  })
  return faults
}

function between(
  value: number,
  low: number,
  high: number,
  column: string,
  unit: string,
  say: Say,
): void {
  if (!Number.isFinite(value)) say(column, 'Not a number.')
  else if (value < low || value > high)
    say(column, `${value} ${unit} is not between ${low} and ${high}.`)
}
