import { isRecord } from '../../core/basics/isRecord.ts'
import { LIMIT_RANGES } from '../../core/policy/limitRanges.ts'
import { LIMIT_KEYS, limit, policyChanges, type Limit, type LimitKey, type Policy, type PolicyChange } from '../../core/policy/policy.ts' // prettier-ignore

/** A value that cannot be taken over, by the name of its limit. */
export interface PolicyFault {
  readonly key: string
  readonly text: string
}

/** What a file of limits would change. `next` is absent while there is any fault. */
export interface PolicyPreview {
  readonly faults: readonly PolicyFault[]
  readonly changes: readonly PolicyChange[]
  readonly next?: Policy
}

/**
 * Reads a JSON file of limits against the shipped policy. It may hold some of the limits or all; each either as a bare
 * number or with `value` and `source`. What is not named stays as shipped. Changes nothing.
 */
export function previewPolicy(shipped: Policy, text: string): PolicyPreview {
  let file: unknown
  try {
    file = JSON.parse(text)
  } catch {
    return refused({ key: 'file', text: 'This is not JSON.' })
  }
  const given = at(file, 'limits')
  if (!isRecord(given)) return refused({ key: 'file', text: 'The file has no "limits".' })
  const faults: PolicyFault[] = []
  const limits: Partial<Record<LimitKey, Limit>> = {}
  for (const [key, entry] of Object.entries(given)) {
    const known = LIMIT_KEYS.find((name) => name === key)
    const value = typeof entry === 'number' ? entry : at(entry, 'value')
    const source = at(entry, 'source')
    const range = known && LIMIT_RANGES[known]
    if (!known) faults.push({ key, text: 'There is no such limit.' })
    else if (typeof value !== 'number' || !Number.isFinite(value))
      faults.push({ key, text: 'The value is not a number.' })
    else if (range && (value < range.least || value > range.most))
      faults.push({ key, text: `${value} is not from ${range.least} to ${range.most}.` })
    else if (value !== limit(shipped, known)) {
      limits[known] = {
        value,
        source: typeof source === 'string' && source ? source : 'set by the site',
        backing: 'site',
      }
    }
  }
  const next: Policy = { ...shipped, limits: { ...shipped.limits, ...limits } }
  if (faults.length === 0) faults.push(...bandFaults(next))
  const good = faults.length === 0
  return { faults, changes: good ? policyChanges(shipped, next) : [], ...(good ? { next } : {}) }
}

/** The kept policy of this device, or the shipped one with the reason why not. */
export function keptPolicy(
  shipped: Policy,
  json: string | undefined,
): { readonly policy: Policy; readonly trouble?: string } {
  if (json === undefined) return { policy: shipped }
  const { next, faults } = previewPolicy(shipped, json)
  if (next) return { policy: next }
  const first = faults[0]
  return {
    policy: shipped,
    trouble: `Your own limits cannot be read, so the shipped ones are in use: ${first?.key ?? ''} ${first?.text ?? ''}`,
  }
}

/** A policy as the text of a file that `previewPolicy` reads. */
export function policyJson({ version, limits }: Policy): string {
  return `${JSON.stringify({ version, limits }, null, 2)}\n`
}

/** The band's cues must come one after another and before its limit. */
function bandFaults(policy: Policy): PolicyFault[] {
  const keys = ['bandFirstCue_s', 'bandSecondCue_s', 'bandLastCue_s', 'bandLimit_s'] as const
  return keys.flatMap((key, index) => {
    const before = keys[index - 1]
    if (!before || limit(policy, before) < limit(policy, key)) return []
    return [
      {
        key,
        text: `${limit(policy, key)} s must be later than ${before} (${limit(policy, before)} s).`,
      },
    ]
  })
}

const refused = (fault: PolicyFault): PolicyPreview => ({ faults: [fault], changes: [] })

function at(value: unknown, ...path: readonly string[]): unknown {
  return path.reduce<unknown>((inner, key) => (isRecord(inner) ? inner[key] : undefined), value)
}
