import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chartedTimes } from '../../src/core/time/chartedTimes.ts'
import { CLOCK_STEP_ms } from '../../src/core/time/course.ts'
import { elapsed, stampAfter, type Reading, type Stamp } from '../../src/core/time/stamp.ts'

/**
 * The reference is a machine whose true time is known: pages run, the machine sleeps (the page's own clock stands),
 * its wall clock is set forward, back and right again, pages are loaded anew, summer time comes and goes. After each
 * of these the page looks at its clocks, as the heartbeat does.
 */
type Happening =
  | { readonly kind: 'run' | 'sleep' | 'reload' | 'doze'; readonly ms: number }
  | { readonly kind: 'set'; readonly ms: number }
  | { readonly kind: 'setRight' }
  | { readonly kind: 'setBackWhileClosed'; readonly ms: number; readonly gap_ms: number }
  | { readonly kind: 'offset'; readonly min: number }

const upTo = (max: number, min = 0): fc.Arbitrary<number> => fc.integer({ min, max })
const happening: fc.Arbitrary<Happening> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('run' as const), ms: upTo(120_000) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('doze' as const), ms: upTo(1400) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('sleep' as const), ms: upTo(7_200_000, 2000) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('reload' as const), ms: upTo(60_000) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('set' as const), ms: fc.oneof(upTo(10_800_000, 2000), upTo(-2000, -10_800_000)) }) },
  { weight: 2, arbitrary: fc.constant({ kind: 'setRight' as const }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('setBackWhileClosed' as const), gap_ms: upTo(60_000), ms: upTo(3_600_000, 1) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('offset' as const), min: fc.constantFrom(60, 120) }) },
) // prettier-ignore
const lives = fc.array(happening, { minLength: 1, maxLength: 25 })

interface Look {
  readonly stamp: Stamp
  /** True time since the first look. */
  readonly true_ms: number
  /** How far the wall clock stands wrong. */
  readonly wrong_ms: number
  /** Steps and reloads so far. */
  readonly breaks: number
  /** Time that passed without any clock of a page to count it. */
  readonly unseen_ms: number
}

const START: Reading = {
  wall_ms: Date.UTC(2026, 9, 24, 23, 30),
  mono_ms: 400,
  boot: 'boot-0',
  offset_min: 120,
}

function live(happenings: readonly Happening[]): readonly Look[] {
  let now = START
  let [true_ms, wrong_ms, boots, unseen_ms, breaks] = [0, 0, 0, 0, 0]
  const looks: Look[] = []
  const look = (): void => {
    const stamp = stampAfter(looks.at(-1)?.stamp, now)
    looks.push({ stamp, true_ms, wrong_ms, breaks, unseen_ms })
  }
  const pass = (ms: number, counted: boolean): void => {
    true_ms += ms
    now = { ...now, wall_ms: now.wall_ms + ms, mono_ms: now.mono_ms + (counted ? ms : 0) }
    if (!counted) unseen_ms += ms
  }
  const set = (ms: number): void => {
    wrong_ms += ms
    now = { ...now, wall_ms: now.wall_ms + ms }
  }
  const boot = (): void => {
    boots += 1
    now = { ...now, mono_ms: 300, boot: `boot-${boots}` }
  }
  look()
  for (const what of happenings) {
    if (what.kind !== 'run' && what.kind !== 'doze' && what.kind !== 'offset') breaks += 1
    if (what.kind === 'run') pass(what.ms, true)
    else if (what.kind === 'sleep' || what.kind === 'doze') pass(what.ms, false)
    else if (what.kind === 'set') set(what.ms)
    else if (what.kind === 'setRight') set(-wrong_ms)
    else if (what.kind === 'offset') now = { ...now, offset_min: what.min }
    else if (what.kind === 'setBackWhileClosed') {
      pass(what.gap_ms, false)
      set(-what.gap_ms - what.ms)
      boot()
    } else {
      pass(what.ms, true)
      boot()
    }
    look()
  }
  return looks
}

/** A clock that, slept and set, stands by chance where it stood before looks as if it had been set right. */
function isChance(looks: readonly Look[]): boolean {
  return looks.some((a, i) =>
    looks.slice(i + 1).some((b) => {
      const ahead_ms = b.wrong_ms + b.unseen_ms - a.wrong_ms - a.unseen_ms
      const slept_ms = b.unseen_ms - a.unseen_ms
      return Math.abs(ahead_ms) <= 3 * CLOCK_STEP_ms && slept_ms > CLOCK_STEP_ms
    }),
  )
}

/** What drift within the tolerance may hide: once up to each step or reload, and once in the rounding of a time. */
const slack_ms = (a: Look, b: Look): number => CLOCK_STEP_ms * (2 + b.breaks - a.breaks)

function forAll(check: (looks: readonly Look[]) => void): void {
  fc.assert(
    fc.property(lives, (happenings) => {
      const looks = live(happenings)
      fc.pre(!isChance(looks))
      check(looks)
    }),
    { numRuns: Number(process.env.CLOCK_RUNS ?? 500) },
  )
}

const pairs = (looks: readonly Look[]): readonly (readonly [Look, Look])[] =>
  looks.flatMap((a, i) => looks.slice(i).map((b) => [a, b] as const))

describe('whatever happens to the clocks', () => {
  it('the time passed lies between the least and the most that are told', () => {
    forAll((looks) => {
      for (const [a, b] of pairs(looks)) {
        const { least_ms, most_ms } = elapsed(a.stamp, b.stamp)
        const true_ms = b.true_ms - a.true_ms
        expect(least_ms).toBeLessThanOrEqual(true_ms)
        expect(most_ms).toBeGreaterThanOrEqual(true_ms - slack_ms(a, b))
      }
    })
  }, 3_600_000)

  it('a charted time is wrong by no more than nobody can know, and times never run backwards', () => {
    forAll((looks) => {
      const [first] = looks
      const last = looks.at(-1)
      if (!first || !last) return
      const charted = chartedTimes(looks.map(({ stamp }) => stamp))
      charted.forEach((stamp, index) => {
        const look = looks[index] ?? first
        const right_ms = START.wall_ms + look.true_ms
        const doubts = (last.stamp.course?.doubts ?? []).filter(({ nth }) => nth <= index)
        const unknown_ms = doubts.reduce((sum, { most_ms }) => sum + most_ms, 0)
        expect(Math.abs(stamp.at_ms - right_ms)).toBeLessThanOrEqual(
          unknown_ms + slack_ms(first, look),
        )
        expect(stamp.at_ms).toBeGreaterThanOrEqual(charted[index - 1]?.at_ms ?? 0)
      })
    })
  }, 3_600_000)

  it('is charted right as soon as the clock is right again', () => {
    forAll((looks) => {
      const last = looks.at(-1)
      if (!last || last.wrong_ms !== 0) return
      const charted = chartedTimes(looks.map(({ stamp }) => stamp)).at(-1)
      expect(Math.abs((charted?.at_ms ?? 0) - START.wall_ms - last.true_ms)).toBeLessThanOrEqual(
        slack_ms(looks[0] ?? last, last),
      )
    })
  }, 3_600_000)

  it('is known exactly where the clock was only set back, or set and set right, while pages ran', () => {
    const seen = lives.map((all) =>
      all.filter(({ kind }) => kind !== 'sleep' && kind !== 'doze' && kind !== 'setBackWhileClosed'),
    ) // prettier-ignore
    fc.assert(
      fc.property(seen, (happenings) => {
        const looks = live([...happenings, { kind: 'setRight' }])
        const [first] = looks
        const last = looks.at(-1)
        if (!first || !last) return
        const open = last.stamp.course?.doubts ?? []
        expect(open).toEqual([])
        expect(elapsed(first.stamp, last.stamp)).toEqual({
          least_ms: last.true_ms,
          most_ms: last.true_ms,
        })
      }),
      { numRuns: 500 },
    )
  })
})
