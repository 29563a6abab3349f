import { limit, type LimitKey, type Policy } from './policy.ts'

/** Two limits of which one must not pass the other. */
export interface LimitRelation {
  readonly lower: LimitKey
  readonly upper: LimitKey
  /** True where both may be the same. */
  readonly mayBeEqual: boolean
}

/**
 * What the limits of a site must not contradict. Common practice, no source, except that a longer pressure under
 * anticoagulants and after an artery is what their sources in the policy ask for.
 */
// prettier-ignore
export const LIMIT_RELATIONS: readonly LimitRelation[] = [
  { lower: 'bandFirstCue_s',  upper: 'bandSecondCue_s',         mayBeEqual: false },
  { lower: 'bandSecondCue_s', upper: 'bandLastCue_s',           mayBeEqual: false },
  { lower: 'bandLastCue_s',   upper: 'bandLimit_s',             mayBeEqual: false },
  { lower: 'flashWait_s',     upper: 'bandLimit_s',             mayBeEqual: false },
  { lower: 'mixStart_s',      upper: 'mixLate_s',               mayBeEqual: false },
  { lower: 'pressure_s',      upper: 'pressureAnticoagulant_s', mayBeEqual: true },
  { lower: 'pressure_s',      upper: 'pressureArtery_s',        mayBeEqual: true },
  { lower: 'siteWatch_s',     upper: 'bandage_min',             mayBeEqual: false },
  { lower: 'clotMost_min',    upper: 'separate_min',            mayBeEqual: true },
  { lower: 'warmLeast_min',   upper: 'warmMost_min',            mayBeEqual: true },
]

/** Seconds in the unit that a limit's name ends with. */
const UNIT_s: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 }

/** The relations that a policy breaks. */
export function brokenRelations(policy: Policy): readonly LimitRelation[] {
  return LIMIT_RELATIONS.filter(({ lower, upper, mayBeEqual }) => {
    const [low_s, high_s] = [inSeconds(policy, lower), inSeconds(policy, upper)]
    return mayBeEqual ? low_s > high_s : low_s >= high_s
  })
}

/** A count of things must be a whole number. */
export const isCounted = (key: LimitKey): boolean => key.endsWith('_n')

function inSeconds(policy: Policy, key: LimitKey): number {
  return limit(policy, key) * (UNIT_s[key.slice(key.lastIndexOf('_') + 1)] ?? 1)
}
