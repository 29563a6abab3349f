import { fillText, type TextValues } from '../../core/basics/fillText.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import { LIMIT_RANGES } from '../../core/policy/limitRanges.ts'
import { brokenRelations, isCounted } from '../../core/policy/limitRelations.ts'
import {
  LIMIT_KEYS,
  limit,
  type Limit,
  type LimitKey,
  type Policy,
} from '../../core/policy/policy.ts'
import { faulty, ok, type Result, type Salvaged } from '../../core/basics/result.ts'
import { jsonFaultSentence, parseJson } from '../../core/text/parseJson.ts'
import { readText } from '../../core/text/readText.ts'
import { textFaultSentence } from '../../core/text/textFaultSentence.ts'
import type { Texts } from './texts.ts'
import type { LimitFaultCode, SiteTexts } from './siteTexts.ts'

/** A value that cannot be taken over, by the name of its limit. */
export interface PolicyFault {
  readonly key: string
  readonly text: string
}

/**
 * Reads a JSON file of limits against the shipped policy. It may hold some of the limits or all; each either as a bare
 * number or with `value` and `source`. What is not named stays as shipped. Any fault refuses the file.
 */
export function readPolicy(
  shipped: Policy,
  text: string,
  { site: texts, text: words }: Pick<Texts, 'site' | 'text'>,
): Result<Policy, PolicyFault> {
  const file = parseJson(text)
  if (!file.ok) {
    return faulty(
      file.faults.map((fault) => ({
        key: 'file',
        text: jsonFaultSentence(fault, text, words.json),
      })),
    )
  }
  const given = at(file.value, 'limits')
  if (!isRecord(given)) return faulty([{ key: 'file', text: fillText(texts.limits.noLimits) }])
  const faults: PolicyFault[] = []
  const limits: Partial<Record<LimitKey, Limit>> = {}
  for (const [key, entry] of Object.entries(given)) {
    const known = LIMIT_KEYS.find((name) => name === key)
    const value = typeof entry === 'number' ? entry : at(entry, 'value')
    const source = readText(sourceOf(entry), 'text', LONGEST_SOURCE)
    const range = known && LIMIT_RANGES[known]
    const wrong = (code: LimitFaultCode, values?: TextValues): void =>
      void faults.push({ key, text: fillText(texts.limits[code], values) })
    if (!known) wrong('unknownLimit')
    else if (typeof value !== 'number' || !Number.isFinite(value)) wrong('notANumber')
    else if (range && (value < range.least || value > range.most))
      wrong('outOfRange', { value, ...range })
    else if (isCounted(known) && !Number.isInteger(value)) wrong('notWhole', { value })
    else if (!source.ok) {
      for (const fault of source.faults) {
        faults.push({ key, text: textFaultSentence(fault, '"source"', words) })
      }
    } else if (value !== limit(shipped, known)) {
      limits[known] = {
        value,
        source: source.value || texts.siteSource,
        backing: 'site',
      }
    }
  }
  const next: Policy = { ...shipped, limits: { ...shipped.limits, ...limits } }
  if (faults.length === 0) faults.push(...relationFaults(next, texts))
  return faults.length > 0 ? faulty(faults) : ok(next)
}

/** The kept policy of this device, or the shipped one with the reason why not. */
export function keptPolicy(
  shipped: Policy,
  json: string | undefined,
  texts: Pick<Texts, 'site' | 'text'>,
): Salvaged<Policy> {
  if (!json) return { value: shipped, faults: [] }
  const reading = readPolicy(shipped, json, texts)
  if (reading.ok) return { value: reading.value, faults: [] }
  const told = reading.faults
    .slice(0, 1)
    .map(({ key, text }) => fillText(texts.site.kept.limits, { key, fault: text }))
  return { value: shipped, faults: told }
}

/** A policy as the text of a file that `readPolicy` reads. */
export function policyJson({ version, limits }: Policy): string {
  return `${JSON.stringify({ version, limits }, null, 2)}\n`
}

/** Limits that contradict each other, each told at the one that should be the larger. */
function relationFaults(policy: Policy, texts: SiteTexts): PolicyFault[] {
  return brokenRelations(policy).map(({ lower, upper, mayBeEqual }) => {
    const values = { value: limit(policy, upper), other: lower, otherValue: limit(policy, lower) }
    return { key: upper, text: fillText(texts.limits[mayBeEqual ? 'below' : 'notAbove'], values) }
  })
}

const LONGEST_SOURCE = 2000

function sourceOf(entry: unknown): string {
  const source = at(entry, 'source')
  return typeof source === 'string' ? source : ''
}

function at(value: unknown, ...path: readonly string[]): unknown {
  return path.reduce<unknown>((inner, key) => (isRecord(inner) ? inner[key] : undefined), value)
}
