import { fillText } from '../basics/fillText.ts'
import { LIMIT_KEYS, limit, type Policy } from './policy.ts'

/** A text with `{bandage_min}` and the like replaced by the site's own values; other braces stay. */
export function withLimits(text: string, policy: Policy): string {
  return fillText(text, Object.fromEntries(LIMIT_KEYS.map((key) => [key, limit(policy, key)])))
}
