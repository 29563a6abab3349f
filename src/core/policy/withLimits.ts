import { LIMIT_KEYS, limit, type Policy } from './policy.ts'

/** A text with `{bandage_min}` and the like replaced by the site's own values; other braces stay. */
export function withLimits(text: string, policy: Policy): string {
  return text.replace(/\{(\w+)\}/g, (braced, name: string) => {
    const key = LIMIT_KEYS.find((each) => each === name)
    return key ? String(limit(policy, key)) : braced
  })
}
