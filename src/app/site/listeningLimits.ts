import * as v from 'valibot'
import type { HeldLimits } from '../../core/voice/heldEars.ts'
import type { NearLimits } from '../../core/voice/nearness.ts'

const limit = (least: number, most: number) =>
  v.strictObject({
    value: v.pipe(v.number(), v.minValue(least), v.maxValue(most)),
    source: v.pipe(v.string(), v.minLength(1)),
  })

/** By what a phrase is told from talk, and how the ears are held open; `src/data/listening.json`. */
export const LISTENING_LIMITS_SCHEMA = v.strictObject({
  $schema: v.exactOptional(v.string()),
  near: v.strictObject({
    clear_dB: limit(3, 30),
    unsure_dB: limit(0, 30),
    onset_dB: limit(0, 30),
    pause_ms: limit(100, 2000),
    softer_dB: limit(0, 30),
    other_dB: limit(0, 40),
    longest_ms: limit(0, 5000),
    longestMore_ms: limit(20, 500),
    talk_dB: limit(6, 40),
  }),
  held: v.strictObject({
    tap_ms: limit(100, 2000),
    tapOpens_ms: limit(1000, 20_000),
    longest_ms: limit(1000, 120_000),
    settle_ms: limit(0, 2000),
    tail_ms: limit(0, 3000),
    stands_ms: limit(100, 5000),
  }),
  againEvery_s: limit(1, 600),
})
type Limits = v.InferOutput<typeof LISTENING_LIMITS_SCHEMA>
type Valued = Readonly<Record<string, { readonly value: number }>>

export interface ListeningLimits {
  readonly near: NearLimits
  readonly held: HeldLimits
  /** Nothing is asked for again sooner than this after the last time, s. */
  readonly againEvery_s: number
}

const valuesOf = <K extends string>(limits: Valued & Record<K, unknown>) =>
  Object.fromEntries(Object.entries(limits).map(([name, { value }]) => [name, value])) as Readonly<
    Record<K, number>
  >

/** @throws Error where the data file is not what its schema says */
export function readListeningLimits(data: unknown): ListeningLimits {
  const { near, held, againEvery_s }: Limits = v.parse(LISTENING_LIMITS_SCHEMA, data)
  return { near: valuesOf(near), held: valuesOf(held), againEvery_s: againEvery_s.value }
}
