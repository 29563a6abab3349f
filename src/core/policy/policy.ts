import { fillText } from '../basics/fillText.ts'

/** How far a value is backed: read at its source, read second-hand, known to the trade only, or the site's own. */
export const BACKINGS = ['read', 'secondHand', 'fromMemory', 'commonPractice', 'site'] as const
export type Backing = (typeof BACKINGS)[number]

/** One limit with where it comes from. */
export interface Limit {
  readonly value: number
  readonly source: string
  readonly backing: Backing
}

/** Every time and count the protocol keeps. The unit ends the name. */
export const LIMIT_KEYS = [
  'bandFirstCue_s',
  'bandSecondCue_s',
  'bandLastCue_s',
  'bandLimit_s',
  'bandAlarmRepeat_s',
  'bandRest_s',
  'drying_s',
  'dryingChlorhexidine_s',
  'dryingIodine_s',
  'dryingAlcoholFree_s',
  'flashWait_s',
  'mixStart_s',
  'mixLate_s',
  'pressure_s',
  'pressureAnticoagulant_s',
  'pressureArtery_s',
  'siteWatch_s',
  'bandage_min',
  'attemptsPerPerson_n',
  'clotMost_min',
  'separate_min',
  'faintRest_min',
  'prophylaxisWindow_h',
  'fastingLeast_h',
  'labelWait_min',
] as const
export type LimitKey = (typeof LIMIT_KEYS)[number]

/** A choice the site made away from the default; shown in the chart. */
export interface PolicyChange {
  readonly key: LimitKey
  readonly from: number
  readonly to: number
}

export interface Policy {
  readonly version: string
  readonly limits: Readonly<Record<LimitKey, Limit>>
}

/** Limits that were told apart later, and the one that a draw from before kept in their place. */
const TOLD_APART_LATER: Readonly<Partial<Record<LimitKey, LimitKey>>> = {
  dryingChlorhexidine_s: 'drying_s',
  dryingIodine_s: 'drying_s',
  dryingAlcoholFree_s: 'drying_s',
}

/** The limits that every log must hold, also one from before others were told apart. */
export const FIRST_LIMIT_KEYS = LIMIT_KEYS.filter((key) => !TOLD_APART_LATER[key])

/** The value of a limit in the unit its name ends with. */
export function limit(policy: Policy, key: LimitKey): number {
  const kept = policy.limits[key] as Limit | undefined
  const before = TOLD_APART_LATER[key]
  if (!kept && before) return limit(policy, before)
  return policy.limits[key].value
}

/** A limit named `..._s`, `..._min` or `..._h` in milliseconds. */
export function limit_ms(policy: Policy, key: LimitKey): number {
  const unit = key.slice(key.lastIndexOf('_') + 1)
  const size = unit === 's' ? 1000 : unit === 'min' ? 60_000 : unit === 'h' ? 3_600_000 : undefined
  if (size === undefined) throw new RangeError(`${key} is not a length of time`)
  return limit(policy, key) * size
}

/** Where the site's policy departs from the defaults. */
export function policyChanges(defaults: Policy, site: Policy): PolicyChange[] {
  return LIMIT_KEYS.filter((key) => limit(defaults, key) !== limit(site, key)).map((key) => ({
    key,
    from: limit(defaults, key),
    to: limit(site, key),
  }))
}

/** A text with `{bandage_min}` and the like replaced by the site's own values; other braces stay. */
export function withLimits(text: string, policy: Policy): string {
  return fillText(text, Object.fromEntries(LIMIT_KEYS.map((key) => [key, limit(policy, key)])))
}
