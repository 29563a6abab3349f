import { describe, expect, it } from 'vitest'
import { readLotCode } from '../../../src/core/protocol/lotCode.ts'

const FNC1 = '\u001D'
const read = (text: string) => readLotCode(text, 2026)

// Element strings by https://www.gs1.org/standards/barcodes/application-identifiers: (01) n14, (10) x..20 ended by a
// separator, (17) n6 as YYMMDD; their order in a symbol is free. The number of goods is invented.
describe('the lot in a GS1 element string', () => {
  it.each([
    ['with its mark', `]C1010950000000001717280131${'10'}AB-12/7`],
    ['of a DataMatrix', ']d201095000000000171728013110AB-12/7'],
    ['without a mark', '01095000000000171728013110AB-12/7'],
    ['the lot first', `010950000000001710AB-12/7${FNC1}17280131`],
    ['a serial between', `0109500000000017${'21'}S17${FNC1}10AB-12/7${FNC1}17280131`],
    ['in brackets', '(01)09500000000017(17)280131(10)AB-12/7'],
    ['in brackets with spaces', '(01) 09500000000017 (17) 280131 (10) AB-12/7'],
  ])('%s', (_what, text) => {
    expect(read(text)).toEqual({ lot: 'AB-12/7', expires: '2028-01-31' })
  })

  it('needs no expiry', () => {
    expect(read(']C110AB12')).toEqual({ lot: 'AB12' })
  })

  // GS1 General Specifications as told by national GS1 pages: the end of August 1999 is 990800.
  it.each([
    ['280800', '2028-08-31'],
    ['280200', '2028-02-29'],
    ['270200', '2027-02-28'],
    ['991231', '1999-12-31'],
    ['750101', '2075-01-01'],
  ])('a date %s is %s', (date, expires) => {
    expect(read(`]C117${date}10A1`)).toEqual({ lot: 'A1', expires })
  })

  it.each([
    ['nothing', ''],
    ['a label of ours', 'D7261125000302'],
    ['a word that begins like one', '10AB12'],
    ['no lot', '010950000000001717280131'],
    ['a lot of 21 signs', `]C110${'A'.repeat(21)}`],
    ['signs that no lot has', ']C110A\u00e9'],
    ['a day that no month has', ']C11728023110AB'],
    ['a lot twice', `]C110A${FNC1}10B`],
    ['an expiry that may be part of the lot', ']C110AB1217280131'],
    ['a number of goods that breaks off', ']C10109500000'],
  ])('is not read from %s', (_what, text) => {
    expect(read(text)).toBeUndefined()
  })
})
