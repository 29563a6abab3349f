import * as v from 'valibot'
import { LIMIT_RANGES } from '../../src/core/policy/limitRanges.ts'
import { BACKINGS, LIMIT_KEYS } from '../../src/core/policy/policy.ts'
import { SCHEMA_LINK } from './textsLike.ts'

const limits = LIMIT_KEYS.map((key) => {
  const { least, most } = LIMIT_RANGES[key]
  const range = v.pipe(v.number(), v.minValue(least), v.maxValue(most))
  const value = key.endsWith('_n') ? v.pipe(range, v.integer()) : range
  const source = v.pipe(v.string(), v.minLength(10))
  return [key, v.strictObject({ value, source, backing: v.picklist(BACKINGS) })] as const
})

/** The file of times and counts: every limit within its range, and where its value comes from. */
export const POLICY_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  version: v.pipe(v.string(), v.minLength(1)),
  limits: v.strictObject(Object.fromEntries(limits)),
})
