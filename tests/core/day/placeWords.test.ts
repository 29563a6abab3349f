import { expect, it } from 'vitest'
import { placeWords } from '../../../src/core/day/placeWords.ts'

const WHERE = { room: 'Room', ward: 'Ward', home: 'Home' }

it.each([
  ['ward', 'B2', 'Ward B2'],
  ['ward', 'Ward 2, bed 4', 'Ward 2, bed 4'],
  ['room', 'room 1', 'room 1'],
  ['home', '2 Example Lane', 'Home 2 Example Lane'],
  ['home', '', 'Home'],
] as const)('a %s that is called "%s" is "%s"', (kind, text, words) => {
  expect(placeWords({ kind, text }, WHERE)).toBe(words)
})
