import { fillText } from '../../../core/basics/fillText.ts'
import type { StockTube } from '../../../core/catalogue/catalogue.ts'
import { readText } from '../../../core/text/readText.ts'
import { textFaultSentence } from '../../../core/text/textFaultSentence.ts'
import { isDay } from '../../../core/time/format.ts'
import type { Texts } from '../texts.ts'
import type { TableFault } from './readTable.ts'

/** The longest lot that a bar code of a maker holds: GS1 General Specifications, application identifier (10). */
const LONGEST_LOT = 20

/** Faults in how lots are named: one that nobody can read, and one of a tube that stands twice. */
export function lotFaults(
  stock: readonly StockTube[],
  { site: { tables }, text, catalogue }: Pick<Texts, 'catalogue' | 'site' | 'text'>,
): readonly TableFault[] {
  const { notADate } = catalogue.faults
  const first = new Map<string, number>()
  return stock.flatMap(({ tubeCode, lot, expires }, index): TableFault[] => {
    const row = index + 1
    const fault = (sentence: string): TableFault[] => [
      { table: 'stock', row, column: 'lot', text: sentence },
    ]
    // A slip of the keyboard that is a day nevertheless, such as 0027-12-31.
    if (isDay(expires) && !/^20\d\d/.test(expires)) {
      return [
        { table: 'stock', row, column: 'expires', text: fillText(notADate, { date: expires }) },
      ]
    }
    if (lot === '') return fault(fillText(tables.noLot))
    if (lot.length > LONGEST_LOT) return fault(fillText(tables.lotTooLong, { most: LONGEST_LOT }))
    const read = readText(lot, 'identifier')
    const [odd] = read.ok ? [] : read.faults
    if (odd) return fault(textFaultSentence(odd, '"lot"', text))
    const key = JSON.stringify([tubeCode, lot.toLowerCase()])
    const earlier = first.get(key)
    if (earlier !== undefined) return fault(fillText(tables.lotTwice, { row: earlier }))
    first.set(key, row)
    return []
  })
}
