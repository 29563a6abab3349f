import * as v from 'valibot'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import { NO_SITE_SYSTEMS, type SiteSystems } from '../../core/fhir/siteSystems.ts'
import { parseJson } from '../../core/text/parseJson.ts'

/** Where they are kept on this device. */
export const RECORD_SYSTEMS_KEY = 'recordSystems'

/** R4 `uri`: with a scheme, and nothing in it that parts a search value. */
const URI = v.pipe(v.string(), v.maxLength(200), v.regex(/^[a-z][a-z\d+.-]*:[^\s|"<>\\^`{}]+$/i))
const WEB = v.pipe(URI, v.regex(/^https?:\/\/[^/?#]+/i))

const SYSTEM = { system: URI, create: v.boolean() }

/** How the site's record server names what a record is about. */
export const RECORD_SYSTEMS_SCHEMA = v.strictObject({
  $schema: v.exactOptional(v.string()),
  base: v.exactOptional(WEB),
  patient: v.exactOptional(v.strictObject(SYSTEM)),
  practitioner: v.exactOptional(v.strictObject(SYSTEM)),
  order: v.exactOptional(
    v.variant('foundBy', [
      v.strictObject({ ...SYSTEM, foundBy: v.literal('requisition') }),
      v.strictObject({ ...SYSTEM, foundBy: v.literal('identifier'), create: v.literal(false) }),
    ]),
  ),
  visit: v.exactOptional(URI),
  provider: v.exactOptional(URI),
})

export const isSystemUri = (text: string): boolean => v.is(URI, text)
export const isWebAddress = (text: string): boolean => v.is(WEB, text)

/** What was set on this device; nothing, and a person is told by `unread`, where it does not read. */
export function keptRecordSystems(json: string | undefined, unread: string): Salvaged<SiteSystems> {
  if (!json) return { value: NO_SITE_SYSTEMS, faults: [] }
  const data = parseJson(json)
  const given = data.ok && isRecord(data.value) ? data.value : undefined
  const read = v.safeParse(RECORD_SYSTEMS_SCHEMA, given)
  return read.success
    ? { value: read.output, faults: [] }
    : { value: NO_SITE_SYSTEMS, faults: [unread] }
}
