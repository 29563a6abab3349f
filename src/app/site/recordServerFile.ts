import * as v from 'valibot'
import { isRecord } from '../../core/basics/isRecord.ts'
import { faulty, ok, type Result } from '../../core/basics/result.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import { serverPattern } from '../../core/text/serverPattern.ts'

/** The name of the file beside the page; see the README. */
export const RECORD_SERVER_FILE = 'record-server.json'

/** A base address, with no question behind it. */
const ADDRESS = v.pipe(
  v.string(),
  v.maxLength(300),
  v.url(),
  v.regex(serverPattern('http', String.raw`(\/[^\s;,'"?#*]*)?`)),
)
const WORD = v.pipe(v.string(), v.minLength(1), v.maxLength(300))

const LOGIN = {
  /** Under which the authorization server knows this app. */
  clientId: WORD,
  /** Scopes of SMART App Launch 2, with spaces between them. */
  scope: v.pipe(v.string(), v.minLength(1), v.maxLength(1000)),
  tokenEndpoint: ADDRESS,
}

/** What a site says of its record server; served beside the page, and part of the policy that goes with it. */
export const RECORD_SERVER_SCHEMA = v.strictObject({
  $schema: v.exactOptional(v.string()),
  /** Base address of the FHIR R4 server. */
  address: ADDRESS,
  /** Which requests are for this place, as a search of R4: `location=Location/3`. Without it none are fetched. */
  orders: v.exactOptional(v.pipe(v.string(), v.maxLength(500), v.regex(/^[^?#\s]*$/))),
  /** SMART Backend Services: this device has a key of its own. */
  backend: v.exactOptional(v.strictObject(LOGIN)),
  /** SMART App Launch from a chart. */
  launch: v.exactOptional(v.strictObject({ ...LOGIN, authorizationEndpoint: ADDRESS })),
})
export type RecordServerFile = v.InferOutput<typeof RECORD_SERVER_SCHEMA>

/** What the file says; what is wrong with it, by its place. */
export function readRecordServerFile(text: string): Result<RecordServerFile> {
  const json = parseJson(text)
  const read = v.safeParse(RECORD_SERVER_SCHEMA, json.ok && isRecord(json.value) ? json.value : {})
  if (!read.success) return faulty([...new Set(read.issues.map((i) => v.getDotPath(i) ?? ''))])
  const { address, ...rest } = read.output
  return ok({ ...rest, address: address.replace(/\/+$/, '') })
}
