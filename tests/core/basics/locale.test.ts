import { afterEach, describe, expect, it } from 'vitest'
import { fillText } from '../../../src/core/basics/fillText.ts'
import { languageName } from '../../../src/core/basics/languageName.ts'
import { inLanguage, showIn, shownLanguage } from '../../../src/core/basics/locale.ts'
import { shownNumber } from '../../../src/core/basics/shownNumber.ts'
import { dayMonthYear, isoLocal } from '../../../src/core/time/format.ts'

afterEach(() => showIn('en'))

describe('what is written for eyes in Spanish', () => {
  it('has a comma before the decimals and nothing between thousands, as Unicode CLDR has it up to 9999', () => {
    showIn('es')
    expect(shownNumber(2.75)).toBe('2,75')
    expect(shownNumber(1250)).toBe(new Intl.NumberFormat('es').format(1250))
    expect(shownNumber(1, 2)).toBe('1,00')
    expect(fillText('{a} mL de {b}', { a: 4.5, b: '1.5' })).toBe('4,5 mL de 1.5')
  })

  it('has the months of Unicode CLDR, without their points', () => {
    const months = Array.from({ length: 12 }, (_, m) =>
      new Intl.DateTimeFormat('es', { month: 'short', timeZone: 'UTC' }).format(Date.UTC(2026, m)),
    )
    const shown = months.map((_, m) =>
      dayMonthYear(`2026-${String(m + 1).padStart(2, '0')}-05`, 'es')
        .split(' ')
        .at(1),
    )
    expect(shown).toEqual(months.map((month) => month.replace('.', '')))
  })

  it('chooses the plural by the rules of its own language', () => {
    const text = { one: 'un tubo', other: '{n} tubos' }
    expect(fillText(text, { n: 1 }, 'es')).toBe('un tubo')
    expect(fillText(text, { n: 0 }, 'es')).toBe('0 tubos')
  })

  it('leaves what machines read as it is', () => {
    showIn('es')
    expect(isoLocal({ at_ms: 1500, offset_min: 0 })).toBe('1970-01-01T00:00:01Z')
  })
})

it('writes in another language and comes back, also when that fails', () => {
  showIn('es')
  expect(inLanguage('en', () => shownNumber(1.5))).toBe('1.5')
  expect(() =>
    inLanguage('en', () => {
      throw new Error('broken')
    }),
  ).toThrow('broken')
  expect(shownLanguage()).toBe('es')
})

it('fills a text of American English with a point', () => {
  showIn('es')
  expect(fillText('{n} mL', { n: 1.5 }, 'en-US')).toBe('1.5 mL')
})

it('names a language in another', () => {
  expect(languageName('es', 'en')).toBe('Spanish')
  expect(languageName('en', 'es')).toBe('inglés')
})
