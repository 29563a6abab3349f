import { describe, expect, it } from 'vitest'
import { fillText } from '../../../src/core/basics/fillText.ts'

describe('a text of a language file', () => {
  it('takes the values of its names', () => {
    expect(fillText('{name} needs {least_mL} mL', { name: 'EDTA 4 mL', least_mL: 2.4 })).toBe(
      'EDTA 4 mL needs 2.4 mL',
    )
  })

  it('shows a name that has no value rather than nothing', () => {
    expect(fillText('Draw {id}', {})).toBe('Draw {id}')
    expect(fillText('Draw {constructor}', {})).toBe('Draw {constructor}')
  })

  it('does not fill twice: a value with braces stays text', () => {
    expect(fillText('{a} {b}', { a: '{b}', b: 'x' })).toBe('{b} x')
  })

  // Unicode CLDR plural rules: English has one and other, Arabic has all six (cldr plurals chart, 2 is `two`).
  it('chooses the plural form by the rules of the language', () => {
    const tubes = { one: '{n} tube', other: '{n} tubes' }
    expect([0, 1, 2].map((n) => fillText(tubes, { n }))).toEqual(['0 tubes', '1 tube', '2 tubes'])
    expect(fillText({ two: 'dual', other: 'o' }, { n: 2 }, 'ar')).toBe('dual')
  })
})
