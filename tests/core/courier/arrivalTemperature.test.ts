import { expect, it } from 'vitest'
import { arrivalTemperature } from '../../../src/core/courier/arrivalTemperature.ts'

it.each([
  ['4', 4],
  [' 4,5 ', 4.5],
  ['-20.5', -20.5],
  ['\u221278', -78],
  ['', undefined],
  ['cold', undefined],
  ['4 C', undefined],
  ['1e1', undefined],
  ['61', undefined],
  ['-201', undefined],
  ['4.55', undefined],
])('%j is read as %s degrees', (typed, degrees) => {
  expect(arrivalTemperature(typed)).toBe(degrees)
})
