import { expect, test } from 'vitest'
import { judgeScreens } from './judgeScreens.ts'
import type { ScreenMeasured } from './screenMeasured.ts'

const SCREEN: ScreenMeasured = {
  findings: [],
  main: { left: 20, top: 400, right: 400, bottom: 600 },
  instruction_px: 55,
  clock_px: 150,
  leastContrast: 6,
  leastTarget_px: 96,
  state: 'a',
  size: '1180x820',
  theme: 'light',
  emptyShare: 0.2,
}
const said = (change: Partial<ScreenMeasured>, stands = true): readonly string[] =>
  judgeScreens([SCREEN, SCREEN, { ...SCREEN, ...change }], { stands })
    .flatMap(({ findings }) => findings)
    .map(({ measure }) => measure)

test('a main choice that is not where most screens have it is found, two pixels are let pass', () => {
  expect(said({ main: { left: 23, top: 400, right: 400, bottom: 600 } })).toEqual(['mainMoved'])
  expect(said({ main: { left: 20, top: 400, right: 400, bottom: 640 } })).toEqual(['mainMoved'])
  expect(said({ main: { left: 22, top: 400, right: 400, bottom: 600 } })).toEqual([])
  expect(said({ main: undefined })).toEqual([])
})

test('small letters of the instruction are found where it is read from afar', () => {
  expect(said({ instruction_px: 51 })).toEqual(['smallInstruction'])
  expect(said({ instruction_px: 51 }, false)).toEqual([])
})

test('a screen that is empty by more than a third is found', () => {
  expect(said({ emptyShare: 0.36 })).toEqual(['empty'])
  expect(said({ emptyShare: 0.34 })).toEqual([])
})
