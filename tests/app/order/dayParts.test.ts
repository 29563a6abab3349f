import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dayOf, joinDay, splitDay } from '../../../src/app/order/dayParts.ts'
import english from '../../../src/data/en/screens.json'

const { months } = english.dates

describe('a day in parts', () => {
  it('comes back as it was, and typed figure by figure becomes a day', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('1901-01-01'), max: new Date('2099-12-31'), noInvalidDate: true }),
        (date) => {
          const day = date.toISOString().slice(0, 10)
          expect(joinDay(splitDay(day))).toBe(day)
          const { month, year, day: figures } = splitDay(day)
          let typed = ''
          for (const figure of figures) {
            const shown = splitDay(typed).day
            typed = joinDay({ ...splitDay(typed), day: `${shown}${figure}` })
          }
          expect(joinDay({ ...splitDay(typed), month, year })).toBe(day)
        },
      ),
    )
  })

  it('is nothing where nothing is typed', () => expect(joinDay(splitDay(''))).toBe(''))

  it.each([
    ['1980-05-31', '1980-05-31'],
    ['31 May 1980', '1980-05-31'],
    ['1. september 2001', '2001-09-01'],
    ['7 Sept 1999', '1999-09-07'],
    // Day or month first: nobody can know.
    ['05/06/1980', undefined],
    ['31 Feb 1980', undefined],
    ['1 Ma 1980', undefined],
  ])('reads %s as %s', (text, day) => {
    expect(dayOf(text, months)).toBe(day)
  })
})
