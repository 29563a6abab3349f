import highsLoader from 'highs'
import type { PackProblem } from '../../src/core/plan/packing/packProblem.ts'

/** Left out, tubes, ranks, blood in µL, kinds: what two answers are compared by. */
export type Score = readonly [number, number, number, number, number]

export const compareScores = (a: Score, b: Score): number =>
  a.map((v, i) => v - (b[i] ?? 0)).find((difference) => difference !== 0) ?? 0

/** Numbers from a seed, so that a failing case can be run again. */
export function random(seed: number) {
  let state = seed >>> 0
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1))
  const pick = <T>(values: readonly T[]): T => values[whole(0, values.length - 1)]!
  return { next, whole, pick }
}

/** An invented order: every volume a whole number of µL, some kinds out of stock, some tests alone. */
export function randomProblem(
  { next, whole, pick }: ReturnType<typeof random>,
  most: {
    readonly items: number
    readonly kinds: number
    readonly stock: number
    /** Share of kinds a test may go in. */
    readonly accepts?: number
    /** Draw volumes to choose from, mL. */
    readonly sizes_mL?: readonly number[]
    /** Ranks to choose from for a kind; none where all kinds are liked alike. */
    readonly ranks?: readonly number[]
  },
): PackProblem {
  const kinds = Array.from({ length: whole(1, most.kinds) }, () => {
    const blood_uL = pick(most.sizes_mL ?? [2, 3, 4, 5, 6, 7, 8]) * 1000
    return { capacity_uL: blood_uL - pick([0, 0, 200]), blood_uL, count: whole(0, most.stock) }
  })
  const rows = Array.from({ length: whole(1, most.items) }, () => {
    const need = whole(3, 40) * 100
    return kinds.map((kind) => {
      const demand = next() < 0.2 ? need + 100 : need
      return kind.count > 0 && next() < (most.accepts ?? 0.6) && demand <= kind.capacity_uL
        ? demand
        : undefined
    })
  })
  const sharing = rows.map(() => pick(['with open', 'with open', 'with coagulation', 'alone']))
  const ranks = rows.map(() => kinds.map(() => pick(most.ranks ?? [0])))
  return { rows, ranks, sharing, kinds }
}

/** Tries every way to put every item in every tube. `undefined` when none keeps to the blood allowed. */
export function bruteForce(problem: PackProblem, most_uL = Infinity): Score | undefined {
  const { rows, ranks, sharing, kinds } = problem
  const tubes: { kind: number; room: number; sharing: string }[] = []
  const used = kinds.map(() => 0)
  let best: Score | undefined
  const visit = (item: number, out: number, rank: number): void => {
    const row = rows[item]
    if (!row) {
      const blood = tubes.reduce((sum, tube) => sum + kinds[tube.kind]!.blood_uL, 0)
      const score: Score = [out, tubes.length, rank, blood, used.filter((n) => n > 0).length]
      if (blood <= most_uL && (!best || compareScores(score, best) < 0)) best = score
      return
    }
    visit(item + 1, out + 1, rank)
    const own = sharing[item]!
    for (const tube of tubes) {
      const demand = row[tube.kind]
      if (demand === undefined || demand > tube.room || tube.sharing !== own) continue
      if (own.startsWith('alone')) continue
      tube.room -= demand
      visit(item + 1, out, rank + (ranks?.[item]?.[tube.kind] ?? 0))
      tube.room += demand
    }
    kinds.forEach((kind, k) => {
      const demand = row[k]
      if (demand === undefined || demand > kind.capacity_uL || used[k]! >= kind.count) return
      used[k]!++
      tubes.push({ kind: k, room: kind.capacity_uL - demand, sharing: own })
      visit(item + 1, out, rank + (ranks?.[item]?.[k] ?? 0))
      tubes.pop()
      used[k]!--
    })
  }
  visit(0, 0, 0)
  return best
}

/** The same problem as three integer programs: left out and tubes, then ranks, then blood and kinds. */
export async function highsOracle(limit_s = 60): Promise<(problem: PackProblem) => Score> {
  const highs = await highsLoader()
  const value = (text: string): number => {
    const solution = highs.solve(text, {
      mip_rel_gap: 0,
      mip_abs_gap: 1e-6,
      presolve: 'on',
      time_limit: limit_s,
    })
    if (solution.Status !== 'Optimal') throw new Error(`HiGHS: ${solution.Status}`)
    return Math.round(solution.ObjectiveValue)
  }
  return (problem) => {
    const { outTerms, tubeTerms, rankTerms, bloodTerms, kindTerms, constraints, names } =
      program(problem)
    const text = (objective: string, more: string): string =>
      `Minimize\n obj: ${objective}\nSubject To\n${constraints}${more}Binary\n ${names.join(' ')}\nEnd\n`
    const first = value(text(sum([...outTerms(1000), ...tubeTerms(1)]), ''))
    const [out, tubes] = [Math.floor(first / 1000), first % 1000]
    const fixed = ` fo: ${sum(outTerms(1))} = ${out}\n` + ` ft: ${sum(tubeTerms(1))} = ${tubes}\n`
    // Blood is a whole number of 0.1 mL in these problems; kinds stay below 100.
    const rank = value(text(sum(rankTerms()), fixed))
    const ranked = `${fixed} fr: ${sum(rankTerms())} = ${rank}\n`
    const second = value(text(sum([...bloodTerms(100), ...kindTerms(1)]), ranked))
    return [out, tubes, rank, Math.floor(second / 100) * 100, second % 100]
  }
}

const sum = (terms: readonly string[]): string =>
  terms.length === 0 ? '0 zero' : terms.join(' + ')

/** `x_i_b`: item i in tube b; `y_b`: tube b is used; `o_i`: item i is left out; `k_j`: kind j is used. */
function program({ rows, ranks, sharing, kinds }: PackProblem) {
  const copies = kinds.flatMap((kind, k) =>
    Array.from({ length: Math.min(kind.count, rows.length) }, () => k),
  )
  // One tube serves one sharing group, so every copy exists once for every group, within the stock.
  const groups = [...new Set(sharing)]
  const tubes = copies.flatMap((kind) => groups.map((group) => ({ kind, group })))
  const lines: string[] = []
  const names = new Set(['zero'])
  const named = (name: string): string => {
    names.add(name)
    return name
  }
  rows.forEach((row, i) => {
    const ways = tubes.flatMap(({ kind, group }, b) =>
      row[kind] !== undefined && group === sharing[i] ? [named(`x_${i}_${b}`)] : [],
    )
    lines.push([...ways, named(`o_${i}`)].join(' + ') + ' = 1')
  })
  tubes.forEach(({ kind, group }, b) => {
    const inside = rows.flatMap((row, i) =>
      row[kind] !== undefined && sharing[i] === group ? [{ i, demand: row[kind] }] : [],
    )
    if (inside.length === 0) return
    const load = inside.map(({ i, demand }) => `${demand} x_${i}_${b}`).join(' + ')
    lines.push(`${load} - ${kinds[kind]!.capacity_uL} ${named(`y_${b}`)} <= 0`)
    if (group.startsWith('alone')) {
      lines.push(`${inside.map(({ i }) => `x_${i}_${b}`).join(' + ')} - y_${b} <= 0`)
    }
    lines.push(`y_${b} - ${named(`k_${kind}`)} <= 0`)
  })
  kinds.forEach((kind, k) => {
    const own = tubes.flatMap((tube, b) =>
      tube.kind === k && names.has(`y_${b}`) ? [`y_${b}`] : [],
    )
    if (own.length > 0) lines.push(`${own.join(' + ')} <= ${kind.count}`)
  })
  const used = tubes.flatMap((tube, b) => (names.has(`y_${b}`) ? [{ b, kind: tube.kind }] : []))
  return {
    constraints: lines.map((line, n) => ` c${n}: ${line}\n`).join(''),
    names: [...names],
    outTerms: (weight: number) => rows.map((_row, i) => `${weight} o_${i}`),
    tubeTerms: (weight: number) => used.map(({ b }) => `${weight} y_${b}`),
    rankTerms: () =>
      rows.flatMap((_row, i) =>
        tubes.flatMap(({ kind }, b) => {
          const rank = ranks?.[i]?.[kind] ?? 0
          return rank > 0 && names.has(`x_${i}_${b}`) ? [`${rank} x_${i}_${b}`] : []
        }),
      ),
    bloodTerms: (weight: number) =>
      used.map(({ b, kind }) => `${(weight * kinds[kind]!.blood_uL) / 100} y_${b}`),
    kindTerms: (weight: number) =>
      [...names].filter((name) => name.startsWith('k_')).map((name) => `${weight} ${name}`),
  }
}
