import { isDay } from '../time/format.ts'

/** What the bar code on a tube or its box says of its lot. */
export interface LotCode {
  readonly lot: string
  /** Last day of use, `YYYY-MM-DD`. */
  readonly expires?: string
}

/**
 * Lengths of element strings whose length is fixed by their first two digits, identifier included; any other goes on to
 * the separator. Source: GS1 General Specifications, "predefined length"; formats of AI (01), (10), (11) and (17):
 * https://www.gs1.org/standards/barcodes/application-identifiers
 */
const FIXED: ReadonlyMap<string, number> = new Map([
  ['00', 20],
  ['01', 16],
  ['02', 16],
  ['11', 8],
  ['12', 8],
  ['13', 8],
  ['15', 8],
  ['16', 8],
  ['17', 8],
  ['20', 4],
])
/** Signs of AI (10): up to 20 of character set 82 (General Specifications, section 7.11). */
const LOT = /^[!"%-?A-Z_a-z]{1,20}$/
/** What a scanner set to it sends before GS1-128, GS1 DataMatrix, GS1 QR and GS1 DataBar (ISO/IEC 15424). */
const SYMBOLOGY = /^\](?:C1|d2|Q3|e0)/
/** FNC1 as scanners send it. */
const SEPARATOR = '\u001D'

/**
 * Reads lot and expiry from a GS1 element string: as a scanner sends it, or as it is printed below the bars, with
 * brackets. `undefined` for any other text, and where it cannot be told where the lot ends, for a wrong lot is worse
 * than none.
 */
export function readLotCode(text: string, thisYear: number): LotCode | undefined {
  const bare = text.trim()
  const elements = bare.startsWith('(') ? inBrackets(bare) : inDigits(bare)
  const lot = elements?.get('10')
  if (lot === undefined || !LOT.test(lot)) return undefined
  const date = elements?.get('17')
  if (date === undefined) return { lot }
  const expires = dayOf(date, thisYear)
  return expires === undefined ? undefined : { lot, expires }
}

function inBrackets(text: string): ReadonlyMap<string, string> | undefined {
  const elements = new Map<string, string>()
  for (const [, id = '', value = ''] of text.matchAll(/\((\d{2,4})\)([^(]*)/g)) {
    if (elements.has(id)) return undefined
    elements.set(id, value.trim())
  }
  return elements
}

function inDigits(text: string): ReadonlyMap<string, string> | undefined {
  const marked = SYMBOLOGY.test(text)
  let rest = text.replace(SYMBOLOGY, '')
  // Without a mark only what begins with a number of goods is sure to be an element string.
  if (!marked && !/^01\d{14}/.test(rest)) return undefined
  const elements = new Map<string, string>()
  while (rest !== '') {
    if (rest.startsWith(SEPARATOR)) rest = rest.slice(1)
    const id = rest.slice(0, 2)
    const fixed = FIXED.get(id)
    const cut = rest.indexOf(SEPARATOR)
    const end = fixed ?? (cut < 0 ? rest.length : cut)
    const value = rest.slice(2, end)
    if (elements.has(id) || (fixed !== undefined && !/^\d+$/.test(value))) return undefined
    if (fixed !== undefined && rest.length < fixed) return undefined
    // Where a scanner drops the separator, an expiry may stand behind the lot and look like part of it.
    if (id === '10' && cut < 0 && /.17\d{6}$/.test(value)) return undefined
    elements.set(id, value)
    rest = rest.slice(end)
  }
  return elements
}

/**
 * The day of `YYMMDD`; a day 00 is the last of its month. The century is the one in which the year is less than 50
 * years from this one (General Specifications, section 7.12).
 */
function dayOf(text: string, thisYear: number): string | undefined {
  const [, yy = '', month = '', day = ''] = /^(\d\d)(\d\d)(\d\d)$/.exec(text) ?? []
  if (yy === '') return undefined
  const apart = Number(yy) - (thisYear % 100)
  const shift = apart >= 51 ? -100 : apart <= -50 ? 100 : 0
  const year = thisYear - (thisYear % 100) + shift + Number(yy)
  const days = day === '00' ? ['31', '30', '29', '28'] : [day]
  return days.map((each) => `${year}-${month}-${each}`).find(isDay)
}
