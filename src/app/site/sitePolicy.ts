import { fillText, type TextValues } from '../../core/basics/fillText.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import { LIMIT_RANGES } from '../../core/policy/limitRanges.ts'
import { LIMIT_KEYS, limit, policyChanges, type Limit, type LimitKey, type Policy, type PolicyChange } from '../../core/policy/policy.ts' // prettier-ignore
import type { Salvaged } from '../../core/basics/result.ts'
import type { LimitFaultCode, SiteTexts } from './siteTexts.ts'

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
export function previewPolicy(shipped: Policy, text: string, texts: SiteTexts): PolicyPreview {
  let file: unknown
  try {
    file = JSON.parse(text)
  } catch {
    return refused({ key: 'file', text: fillText(texts.limits.notJson) })
  }
  const given = at(file, 'limits')
  if (!isRecord(given)) return refused({ key: 'file', text: fillText(texts.limits.noLimits) })
  const faults: PolicyFault[] = []
  const limits: Partial<Record<LimitKey, Limit>> = {}
  for (const [key, entry] of Object.entries(given)) {
    const known = LIMIT_KEYS.find((name) => name === key)
    const value = typeof entry === 'number' ? entry : at(entry, 'value')
    const source = at(entry, 'source')
    const range = known && LIMIT_RANGES[known]
    const wrong = (code: LimitFaultCode, values?: TextValues): void =>
      void faults.push({ key, text: fillText(texts.limits[code], values) })
    if (!known) wrong('unknownLimit')
    else if (typeof value !== 'number' || !Number.isFinite(value)) wrong('notANumber')
    else if (range && (value < range.least || value > range.most))
      wrong('outOfRange', { value, ...range })
    else if (value !== limit(shipped, known)) {
      limits[known] = {
        value,
        source: typeof source === 'string' && source ? source : texts.siteSource,
        backing: 'site',
      }
    }
  }
  const next: Policy = { ...shipped, limits: { ...shipped.limits, ...limits } }
  if (faults.length === 0) faults.push(...bandFaults(next, texts))
  if (faults.length > 0) return { faults, changes: [] }
  return { faults, changes: policyChanges(shipped, next), next }
}

/** The kept policy of this device, or the shipped one with the reason why not. */
export function keptPolicy(
  shipped: Policy,
  json: string | undefined,
  texts: SiteTexts,
): Salvaged<Policy> {
  if (json === undefined) return { value: shipped, faults: [] }
  const { next, faults } = previewPolicy(shipped, json, texts)
  if (next) return { value: next, faults: [] }
  const told = faults
    .slice(0, 1)
    .map(({ key, text }) => fillText(texts.kept.limits, { key, fault: text }))
  return { value: shipped, faults: told }
}

/** A policy as the text of a file that `previewPolicy` reads. */
export function policyJson({ version, limits }: Policy): string {
  return `${JSON.stringify({ version, limits }, null, 2)}\n`
}

/** The band's cues must come one after another and before its limit. */
function bandFaults(policy: Policy, texts: SiteTexts): PolicyFault[] {
  const keys = ['bandFirstCue_s', 'bandSecondCue_s', 'bandLastCue_s', 'bandLimit_s'] as const
  return keys.flatMap((key, index) => {
    const other = keys[index - 1]
    if (!other || limit(policy, other) < limit(policy, key)) return []
    const values = { value_s: limit(policy, key), other, other_s: limit(policy, other) }
    return [{ key, text: fillText(texts.limits.cueTooEarly, values) }]
  })
}

const refused = (fault: PolicyFault): PolicyPreview => ({ faults: [fault], changes: [] })

function at(value: unknown, ...path: readonly string[]): unknown {
  return path.reduce<unknown>((inner, key) => (isRecord(inner) ? inner[key] : undefined), value)
}
