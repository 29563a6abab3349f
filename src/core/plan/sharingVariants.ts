import type { TestRow } from '../catalogue/catalogue.ts'

/** Tests that may be iced and need not: beyond these many all of them go one way or the other. */
const MOST_ONE_BY_ONE = 4

type Temperature = 'ice' | 'warm' | 'room'

/** Tests meet in a tube only when they may share and are kept at the same temperature. */
export function sharingKey(test: TestRow, temperature: Temperature = temperatureOf(test)): string {
  return test.sharing === 'alone' ? 'alone' : `with ${test.sharing}, ${temperature}`
}

function temperatureOf({ handling }: TestRow): Temperature {
  if (handling.includes('ice')) return 'ice'
  return handling.includes('warm') ? 'warm' : 'room'
}

/**
 * Every way of saying which tests go on ice: those that must, and any of those that may where one of their own group
 * must. The first way has none of them on ice.
 * @returns for each way the sharing word of every test.
 */
export function sharingVariants(tests: readonly TestRow[]): readonly (readonly string[])[] {
  const iced = new Set(
    tests.filter((test) => temperatureOf(test) === 'ice').map(({ sharing }) => sharing),
  )
  const either = tests.flatMap((test, i) =>
    test.handling.includes('coolOptional') && test.sharing !== 'alone' && iced.has(test.sharing)
      ? [i]
      : [],
  )
  const all = 2 ** either.length - 1
  const ways =
    either.length > MOST_ONE_BY_ONE ? [0, all] : Array.from({ length: all + 1 }, (_, way) => way)
  return ways.map((way) =>
    tests.map((test, i) => {
      const place = either.indexOf(i)
      const onIce = place >= 0 && Math.floor(way / 2 ** place) % 2 === 1
      return sharingKey(test, onIce ? 'ice' : undefined)
    }),
  )
}
