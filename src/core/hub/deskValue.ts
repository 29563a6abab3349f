import { isRecord } from '../basics/isRecord.ts'
import { canonicalJson } from '../log/canonicalJson.ts'
import { parseJson } from '../text/parseJson.ts'
import { isHubName } from './hubNames.ts'
import { isHex } from './wrappedKeys.ts'

/**
 * Something that a desk tells the clinic: a pass for a device, the desk file for a second desk, what the site shares.
 * The hub keeps the last one under its key; whoever reads it checks who signed.
 */
export interface DeskValue {
  readonly format: 'stillhand-desk'
  readonly version: 1
  readonly clinic: string
  /** The key under which it stands, so that nothing is put in another's place. */
  readonly what: string
  /** Counts up with each change. */
  readonly edition: number
  /** Id of the desk that signed. */
  readonly by: string
  /** A text: sealed or plain, as its kind has it. */
  readonly body: string
  /** ECDSA with SHA-256 over `deskValueText`, hex. */
  readonly signature: string
}

export const DESK_VALUE_FAULTS = ['notJson', 'foreign', 'newer', 'shape'] as const
export type DeskValueFault = (typeof DESK_VALUE_FAULTS)[number]

/** What the desk signs: everything but the signature, in one form. */
export const deskValueText = ({
  signature: _,
  ...rest
}: Omit<DeskValue, 'signature'> & { readonly signature?: string }): string => canonicalJson(rest)

const FIELDS = ['format', 'version', 'clinic', 'what', 'edition', 'by', 'body', 'signature']
const BODY_MAX = 900_000

/** Reads a value from the hub, every field of it; what is unknown is refused. The signature is left to others. */
export function readDeskValue(text: string): DeskValue | DeskValueFault {
  const json = parseJson(text, 2)
  if (!json.ok) return 'notJson'
  const { value } = json
  if (!isRecord(value) || value['format'] !== 'stillhand-desk') return 'foreign'
  if (typeof value.version === 'number' && value.version > 1) return 'newer'
  const { version, clinic, what, edition, by, body, signature } = value
  const isWhole =
    Object.keys(value).length === FIELDS.length &&
    FIELDS.every((field) => Object.hasOwn(value, field)) &&
    version === 1 &&
    [clinic, what, by].every((name) => typeof name === 'string' && isHubName(name)) &&
    Number.isSafeInteger(edition) &&
    Number(edition) > 0 &&
    typeof body === 'string' &&
    body.length <= BODY_MAX &&
    isHex(signature, 2, 400)
  return isWhole ? (value as unknown as DeskValue) : 'shape'
}
