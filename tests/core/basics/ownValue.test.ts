import { expect, it } from 'vitest'
import { ownValue } from '../../../src/core/basics/ownValue.ts'
import { closureColor } from '../../../src/ui/shared/closureColor.ts'
import { chooseByUse } from '../../../src/app/order/fhir/chooseByUse.ts'
import { NAME_USE } from '../../../src/app/order/fhir/useTables.ts'
import { readSpecimen } from '../../../src/app/site/catalogue/specimenWords.ts'

const inherited = ['constructor', 'toString', 'hasOwnProperty', '__proto__', 'valueOf']

it('finds what a table holds and nothing that every object has', () => {
  expect(ownValue({ a: 1 }, 'a')).toBe(1)
  for (const key of inherited) expect(ownValue({ a: 1 }, key)).toBeUndefined()
})

it.each(inherited)('%s is no color, no use and no group of additives', (word) => {
  expect(closureColor(word)).toBeUndefined()
  expect(chooseByUse([{ use: word, value: 'A' }], NAME_USE, '2026-11-26').verdict).toBe('ask')
  expect(readSpecimen(`serum:${word}`)).toEqual({ needs: [], unknown: [`serum:${word}`] })
})
