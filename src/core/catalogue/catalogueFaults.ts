import { fillText, type Text, type TextValues } from '../basics/fillText.ts'
import { isDay } from '../time/format.ts'
import { ADDITIVES, hasTrait, needsFixedVolume } from './additives.ts'
import {
  SPECIMEN_KINDS,
  type Catalogue,
  type StockTube,
  type TestRow,
  type TubeRow,
} from './catalogue.ts'
import type { CatalogueTexts } from './catalogueTexts.ts'
import type { Handling } from './handling.ts'
import { SUPPLY_CODES } from './otherSupplies.ts'

/** Something wrong in a table. `row` counts the rows of data from 1. */
export interface Fault {
  readonly table: 'tests' | 'tubes' | 'stock' | 'series' | 'search'
  readonly row: number
  readonly column: string
  readonly text: string
}

type FaultTexts = CatalogueTexts['faults']
type Say = (column: string, text: Text, values?: TextValues) => void

/** Every fault in the site's tables: empty or repeated codes, unknown additives, volumes that cannot be. */
export function catalogueFaults(
  { tests, tubes }: Pick<Catalogue, 'tests' | 'tubes'>,
  { faults }: CatalogueTexts,
): Fault[] {
  return [
    ...eachRow('tests', tests, testFaults, faults),
    ...eachRow('tubes', tubes, tubeFaults, faults),
  ]
}

/** Faults in what is on hand. */
export function stockFaults(
  stock: readonly StockTube[],
  { tubes }: Pick<Catalogue, 'tubes'>,
  { faults: texts }: CatalogueTexts,
): Fault[] {
  const codes = new Set([...SUPPLY_CODES, ...tubes.map((tube) => tube.code)])
  const faults: Fault[] = []
  stock.forEach((lot, index) => {
    const say = sayIn(faults, 'stock', index + 1)
    if (!codes.has(lot.tubeCode)) say('tubeCode', texts.unknownTube, { code: lot.tubeCode })
    if (!isDay(lot.expires)) say('expires', texts.notADate, { date: lot.expires })
    if (!Number.isInteger(lot.count)) say('count', texts.notWhole, { value: lot.count })
    else between(lot.count, 0, 100_000, 'count', texts, say)
  })
  return faults
}

function sayIn(faults: Fault[], table: Fault['table'], row: number): Say {
  return (column, text, values) =>
    void faults.push({ table, row, column, text: fillText(text, values) })
}

function eachRow<T extends { readonly code: string }>(
  table: 'tests' | 'tubes',
  rows: readonly T[],
  check: (row: T, texts: FaultTexts, say: Say) => void,
  texts: FaultTexts,
): Fault[] {
  const faults: Fault[] = []
  const seen = new Map<string, number>()
  rows.forEach((row, index) => {
    const say = sayIn(faults, table, index + 1)
    const first = seen.get(row.code)
    if (row.code === '') say('code', texts.noCode)
    else if (first !== undefined) say('code', texts.codeTaken, { code: row.code, row: first })
    else seen.set(row.code, index + 1)
    check(row, texts, say)
  })
  return faults
}

function testFaults(test: TestRow, texts: FaultTexts, say: Say): void {
  if (test.name === '') say('name', texts.noName)
  if (test.accepts.length === 0) say('specimen', texts.noSpecimen)
  for (const { kind, additive } of test.accepts) {
    if (!SPECIMEN_KINDS.includes(kind)) say('specimen', texts.unknownKind, { kind })
    if (!ADDITIVES.includes(additive)) say('specimen', texts.unknownAdditive, { additive })
  }
  if (new Set(test.accepts.map((need) => need.additive)).size < test.accepts.length) {
    say('specimen', texts.additiveTwice)
  }
  for (const { additive } of test.accepts) {
    if (hasTrait(additive, test.neverIn)) say('neverIn', texts.neverIn, { additive })
  }
  between(test.least_mL, 0.01, 50, 'least_mL', texts, say)
  between(test.preferred_mL, 0.01, 50, 'preferred_mL', texts, say)
  if (test.preferred_mL < test.least_mL) {
    say('preferred_mL', texts.belowOther, { other: 'least_mL' })
  }
  if (test.sharing === '') say('sharing', texts.noSharing)
  if (test.timeLimit_min !== undefined) {
    between(test.timeLimit_min, 1, 20_160, 'timeLimit_min', texts, say)
  }
  if (test.timeLimitHeparin_min !== undefined) {
    between(test.timeLimitHeparin_min, 1, 20_160, 'timeLimitHeparin_min', texts, say)
  }
  const temperatures = test.handling.filter((h) => TEMPERATURES.has(h))
  if (temperatures.length > 1) {
    say('handling', texts.temperatures, { handling: temperatures.join(' + ') })
  }
}

const TEMPERATURES: ReadonlySet<Handling> = new Set(['ice', 'warm', 'roomOnly', 'coolOptional'])

function tubeFaults(tube: TubeRow, texts: FaultTexts, say: Say): void {
  if (tube.name === '') say('name', texts.noName)
  if (!ADDITIVES.includes(tube.additive)) {
    say('additive', texts.unknownAdditive, { additive: tube.additive })
  }
  between(tube.nominal_mL, 0.1, 50, 'nominal_mL', texts, say)
  between(tube.inner_mL, 0.1, 150, 'inner_mL', texts, say)
  if (tube.inner_mL <= tube.nominal_mL) {
    say('inner_mL', texts.notAboveOther, { other: 'nominal_mL' })
  }
  between(tube.dead_mL, 0, 5, 'dead_mL', texts, say)
  if (tube.dead_mL > 0 && tube.dead_mL >= tube.nominal_mL)
    say('dead_mL', texts.notBelowOther, { other: 'nominal_mL' })
  between(tube.leastFill_pct, 1, 100, 'leastFill_pct', texts, say)
  if (tube.partialFill && needsFixedVolume(tube.additive))
    say('partialFill', texts.fixedVolume, { additive: tube.additive })
  between(tube.inversionsMin, 0, 50, 'inversionsMin', texts, say)
  between(tube.inversionsMax, 0, 50, 'inversionsMax', texts, say)
  for (const column of ['inversionsMin', 'inversionsMax'] as const) {
    const value = tube[column]
    if (Number.isFinite(value) && !Number.isInteger(value)) say(column, texts.notWhole, { value })
  }
  if (tube.inversionsMax < tube.inversionsMin) {
    say('inversionsMax', texts.belowOther, { other: 'inversionsMin' })
  }
  if (tube.clot_min !== undefined) between(tube.clot_min, 1, 240, 'clot_min', texts, say)
}

function between(
  value: number,
  low: number,
  high: number,
  column: string,
  texts: FaultTexts,
  say: Say,
): void {
  if (!Number.isFinite(value)) say(column, texts.notANumber)
  else if (value < low || value > high) say(column, texts.outOfRange, { value, low, high })
}
