import * as v from 'valibot'

const count = (least: number, most: number) =>
  v.pipe(v.number(), v.minValue(least), v.maxValue(most))
const limit = <S extends v.GenericSchema<unknown, number>>(value: S) =>
  v.strictObject({ value, source: v.pipe(v.string(), v.minLength(1)) })

/** How handing over waits and how much it reads; `src/data/handOver.json`. */
export const HAND_OVER_LIMITS_SCHEMA = v.strictObject({
  $schema: v.exactOptional(v.string()),
  firstWait_s: limit(count(1, 3600)),
  mostWait_s: limit(count(1, 86_400)),
  lookEvery_s: limit(count(1, 3600)),
  answerWait_s: limit(count(1, 600)),
  conflictTries: limit(count(1, 20)),
  conflictWait_s: limit(count(0.1, 60)),
  mostAnswer_MB: limit(count(0.01, 100)),
  keptLeavings: limit(count(10, 20_000)),
  fetchEvery_min: limit(count(1, 1440)),
  mostPages: limit(count(1, 200)),
})
type Limits = v.InferOutput<typeof HAND_OVER_LIMITS_SCHEMA>

export type HandOverLimits = Readonly<Record<Exclude<keyof Limits, '$schema'>, number>>

/** @throws Error where the data file is not what its schema says */
export function readHandOverLimits(data: unknown): HandOverLimits {
  const { $schema: _schema, ...limits } = v.parse(HAND_OVER_LIMITS_SCHEMA, data)
  return Object.fromEntries(
    Object.entries(limits).map(([name, { value }]) => [name, value]),
  ) as HandOverLimits
}
