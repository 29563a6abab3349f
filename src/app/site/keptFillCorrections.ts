import * as v from 'valibot'
import { isCorrection, type FillCorrection } from '../../core/flow/fillCorrection.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import type { SiteTexts } from './siteTexts.ts'

/** Where they are kept on this device. */
export const FILL_CORRECTIONS_KEY = 'fillCorrections'

const KEPT = v.array(
  v.object({
    set: v.pipe(v.string(), v.regex(/^(winged|straight) \d{2} \w+ [\d.]+ [\d.]+ [\d.]+$/)),
    factor: v.pipe(v.number(), v.check(isCorrection)),
    by: v.pipe(v.string(), v.minLength(1), v.maxLength(100)),
    at_ms: v.number(),
    tubes: v.pipe(v.number(), v.integer(), v.minValue(1)),
  }),
)

/** What was accepted on this device; none of it, and a person is told, where it does not read. */
export function keptFillCorrections(
  json: string | undefined,
  texts: SiteTexts,
): Salvaged<readonly FillCorrection[]> {
  if (!json) return { value: [], faults: [] }
  const data = parseJson(json)
  const read = v.safeParse(KEPT, data.ok ? data.value : undefined)
  if (read.success) return { value: read.output, faults: [] }
  return { value: [], faults: [texts.kept.fillCorrections] }
}
