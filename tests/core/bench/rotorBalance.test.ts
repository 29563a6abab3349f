import { describe, expect, it } from 'vitest'
import { balance, canBalance } from '../../../src/core/bench/rotorBalance.ts'

/** How far the tubes' common center is from the axle: the sum of the roots of unity at their places. */
function offCenter(n: number, places: readonly number[]): number {
  const turn = (place: number): number => (2 * Math.PI * place) / n
  const x = places.reduce((sum, place) => sum + Math.cos(turn(place)), 0)
  const y = places.reduce((sum, place) => sum + Math.sin(turn(place)), 0)
  return Math.hypot(x, y)
}

/** For which counts some choice of places balances, every choice tried. */
function byTrying(n: number): ReadonlySet<number> {
  const found = new Set<number>()
  for (let bits = 1; bits < 2 ** n; bits++) {
    const places = Array.from({ length: n }, (_, place) => place).filter((p) => (bits >> p) & 1)
    if (offCenter(n, places) < 1e-9) found.add(places.length)
  }
  return found
}

describe('whether a rotor can be balanced', () => {
  it.each([2, 3, 4, 5, 6, 7, 8, 9, 10, 12])('with %i places: as trying every choice tells', (n) => {
    const tried = byTrying(n)
    for (let k = 1; k <= n; k++) expect(canBalance(n, k), `${k} of ${n}`).toBe(tried.has(k))
  })

  // OEIS A306275, number of k with 0 < k <= n that cannot be balanced (from n = 2): Bieder, Heinz.
  it('as often not as the published sequence has it', () => {
    const published = [1, 2, 2, 4, 2, 6, 4, 6, 4, 10, 2, 12, 6, 8, 8, 16, 2, 18, 4, 12, 10, 22, 2, 20, 12, 18, 6, 28, 2, 30, 16, 20, 16, 24, 2, 36, 18, 24, 4, 40, 2, 42, 10, 8, 22, 46, 2] // prettier-ignore
    const counted = published.map((_, i) => {
      const n = i + 2
      return Array.from({ length: n }, (_one, k) => k + 1).filter((k) => !canBalance(n, k)).length
    })
    expect(counted).toEqual(published)
  })
})

describe('where the tubes stand', () => {
  it.each([4, 6, 8, 10, 12, 15, 18, 20, 24, 28, 30, 36])(
    'with %i places: in balance, and without a blank exactly where that can be',
    (n) => {
      for (let k = 1; k <= n; k++) {
        const [kind] = balance(n, [k]) ?? []
        const all = [...(kind?.tubes ?? []), ...(kind?.blanks ?? [])]
        expect(kind?.blanks.length === 0, `${k} of ${n}`).toBe(canBalance(n, k))
        if (!kind) continue
        expect(kind.tubes.length).toBe(k)
        expect(new Set(all).size).toBe(all.length)
        expect(all.every((place) => place >= 0 && place < n)).toBe(true)
        expect(offCenter(n, all)).toBeLessThan(1e-9)
      }
    },
  )

  it('one tube needs one blank against it, one too many for its rotor has no place', () => {
    const [one] = balance(24, [1]) ?? []
    expect(one?.blanks.map((place) => Math.abs(place - (one.tubes[0] ?? 0)))).toEqual([12])
    expect(balance(4, [5])).toBeUndefined()
    // 11 of 12 cannot: the twelfth must be a blank.
    expect(balance(12, [11])?.[0]?.blanks.length).toBe(1)
  })

  it('each kind of tube is in balance by itself', () => {
    for (const counts of [
      [3, 2],
      [1, 1],
      [5, 3],
      [2, 2, 1],
      [1, 1, 1, 1, 1],
    ]) {
      const kinds = balance(24, counts)
      expect(kinds?.map(({ tubes }) => tubes.length)).toEqual(counts)
      const all = (kinds ?? []).flatMap(({ tubes, blanks }) => [...tubes, ...blanks])
      expect(new Set(all).size).toBe(all.length)
      for (const { tubes, blanks } of kinds ?? [])
        expect(offCenter(24, [...tubes, ...blanks])).toBeLessThan(1e-9)
    }
  })

  it('a rotor full of tubes that are all unlike is found impossible within a moment', () => {
    const begun = performance.now()
    expect(
      balance(
        24,
        Array.from({ length: 20 }, () => 1),
      ),
    ).toBeUndefined()
    expect(balance(96, [95, 1])).toBeUndefined()
    expect(performance.now() - begun).toBeLessThan(2000)
  })
})
