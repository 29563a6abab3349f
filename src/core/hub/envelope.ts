import { isRecord } from '../basics/isRecord.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import { canonicalJson } from '../log/canonicalJson.ts'
import { NO_PREVIOUS } from '../log/seal.ts'
import { parseJson } from '../text/parseJson.ts'
import type { HubEntryKind } from './hubEntry.ts'
import { isHubName } from './hubNames.ts'

/**
 * One entry of a log on its way through the hub. The hub and its copies see what stands here: which device wrote which
 * log, its number, its hash and its size. What the entry says is sealed under the clinic's key, and the device signs
 * over all of it.
 */
export interface Envelope {
  readonly format: 'stillhand-envelope'
  readonly version: 1
  /** `entry` holds an entry; `writer` says that this device writes the log behind the entry that it names. */
  readonly kind: HubEntryKind
  readonly log: string
  /** Number of the entry; of a `writer`, of the last entry that counts, 0 where there is none. */
  readonly seq: number
  /** Hash of that entry. */
  readonly hash: string
  readonly device: string
  /** Name of the clinic's key. */
  readonly key: string
  /** Hex. */
  readonly iv: string
  /** Base64 (RFC 4648). */
  readonly data: string
  /** ECDSA over `envelopeText`, hex. */
  readonly signature: string
}

/** Why bytes of the hub are no envelope. */
export const ENVELOPE_FAULTS = ['notJson', 'foreign', 'newer', 'shape'] as const
export type EnvelopeFault = (typeof ENVELOPE_FAULTS)[number]

/** What the device signs: everything but the signature, in the one form. */
export const envelopeText = ({ signature: _, ...rest }: Envelope): string => canonicalJson(rest)

/** What the sealed text is bound to: in another place of another log it does not open. */
export const sealContext = ({ kind, log, seq }: Pick<Envelope, 'kind' | 'log' | 'seq'>): string =>
  `${kind}/${log}/${seq}`

const LEVELS = 2

/** Reads an envelope; every field is looked at and no other is let through. */
export function readEnvelope(text: string): Result<Envelope, EnvelopeFault> {
  const json = parseJson(text, LEVELS)
  if (!json.ok) return faulty(['notJson'])
  const { value } = json
  if (!isRecord(value) || value['format'] !== 'stillhand-envelope') return faulty(['foreign'])
  const { version } = value
  if (typeof version === 'number' && version > 1) return faulty(['newer'])
  return isEnvelope(value) ? ok(value as unknown as Envelope) : faulty(['shape'])
}

const FIELDS: Readonly<Record<keyof Envelope, (value: unknown) => boolean>> = {
  format: () => true,
  version: (value) => value === 1,
  kind: (value) => value === 'entry' || value === 'writer',
  log: (value) => isText(value) && isHubName(value),
  seq: (value) => Number.isSafeInteger(value) && Number(value) >= 0,
  hash: (value) => isText(value) && /^[0-9a-f]{64}$/.test(value),
  device: (value) => isText(value) && isHubName(value),
  key: (value) => isText(value) && /^[\w.-]{1,100}$/.test(value),
  iv: (value) => isText(value) && /^[0-9a-f]{24}$/.test(value),
  data: (value) => isText(value) && value.length % 4 === 0 && /^[A-Za-z0-9+/]+={0,2}$/.test(value),
  signature: (value) => isText(value) && /^([0-9a-f]{2}){1,200}$/.test(value),
}

function isEnvelope(value: Readonly<Record<string, unknown>>): boolean {
  const names = Object.keys(FIELDS) as (keyof Envelope)[]
  if (Object.keys(value).length !== names.length) return false
  if (!names.every((name) => Object.hasOwn(value, name) && FIELDS[name](value[name]))) return false
  const { kind, seq, hash } = value
  if (kind === 'entry') return Number(seq) >= 1
  return (seq === 0) === (hash === NO_PREVIOUS)
}

const isText = (value: unknown): value is string => typeof value === 'string'
