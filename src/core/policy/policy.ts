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
  'warmLeast_min',
  'warmMost_min',
  'warmMost_C',
  'heelBelow_mo',
  'smallHeel_kg',
  'childFinger_y',
  'bandageFrom_y',
  'dropsMost_mL',
  'cardCircles_n',
  'cardAge_h',
  'cardDry_h',
  'transferMost_s',
  'syringeStays_mL',
  'ownName_y',
  'ownConsent_y',
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

/** Limits that were told apart later, and the one, or the value, that a draw from before kept in their place. */
const TOLD_APART_LATER: Readonly<Partial<Record<LimitKey, LimitKey | number>>> = {
  dryingChlorhexidine_s: 'drying_s',
  dryingIodine_s: 'drying_s',
  dryingAlcoholFree_s: 'drying_s',
  warmLeast_min: 3,
  warmMost_min: 5,
  warmMost_C: 42,
  heelBelow_mo: 12,
  smallHeel_kg: 2.5,
  childFinger_y: 8,
  bandageFrom_y: 2,
  dropsMost_mL: 1,
  cardCircles_n: 5,
  cardAge_h: 24,
  cardDry_h: 3,
  transferMost_s: 60,
  syringeStays_mL: 0.3,
  ownName_y: 5,
  ownConsent_y: 16,
}

/** The limits that every log must hold, also one from before others were told apart. */
export const FIRST_LIMIT_KEYS = LIMIT_KEYS.filter((key) => TOLD_APART_LATER[key] === undefined)

/** The value of a limit in the unit its name ends with. */
export function limit(policy: Policy, key: LimitKey): number {
  const kept = policy.limits[key] as Limit | undefined
  const before = TOLD_APART_LATER[key]
  if (kept || before === undefined) return policy.limits[key].value
  return typeof before === 'number' ? before : limit(policy, before)
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

/**
 * A text with `{bandage_min}` and the like replaced by the site's own values; other braces stay. `{warmMost_F}` is the
 * same warmth in °F, rounded down.
 */
export function withLimits(text: string, policy: Policy): string {
  const values = LIMIT_KEYS.map((key) => [key, limit(policy, key)] as const)
  const warmMost_F = Math.floor((limit(policy, 'warmMost_C') * 9) / 5 + 32)
  return fillText(text, { ...Object.fromEntries(values), warmMost_F })
}
