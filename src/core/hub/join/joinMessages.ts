import { isRecord } from '../../basics/isRecord.ts'
import { canonicalJson } from '../../log/canonicalJson.ts'
import { parseJson } from '../../text/parseJson.ts'
import { isDeviceName, isPassKey } from '../readRoster.ts'
import { isHex, isPublicKey } from '../wrappedKeys.ts'

/** Why a desk does not let a device in. The words for each stand in the language files. */
export const JOIN_REFUSALS = [
  'wrongCode',
  /** The code has run out, was used, or three wrong ones were tried. */
  'codeOver',
  /** Another device is asking with this code. */
  'busy',
  'nameTaken',
  /** The person at the desk said no. */
  'byPerson',
  /** What came is not what was begun: somebody stands in between, or the desk began anew. */
  'changed',
  /** The desk could not do it: the hub or its disk failed. */
  'failed',
] as const
export type JoinRefusal = (typeof JOIN_REFUSALS)[number]

/** What a device says that wants to join; `join` names its attempt and is drawn by lot. */
export type JoinAsk =
  | { readonly type: 'hello'; readonly join: string; readonly sealingKey: string }
  | JoinRequest
  | { readonly type: 'poll'; readonly join: string }

export interface JoinRequest {
  readonly type: 'join'
  readonly join: string
  readonly name: string
  readonly signingKey: string
  readonly sealingKey: string
  readonly passKey: string
  /** Proves that whoever asks knows the code. */
  readonly mac: string
}

/** What a desk answers. */
export type JoinAnswer =
  /** `salt` and both keys make the key of this attempt, with the code. */
  | {
      readonly type: 'desk'
      readonly join: string
      readonly deskKey: string
      readonly salt: string
    }
  | { readonly type: 'waiting'; readonly join: string }
  | {
      readonly type: 'refused'
      readonly join: string
      readonly why: JoinRefusal
      /** How many wrong codes are left. */
      readonly tries?: number
    }
  /** `body` is the text of a `Welcome`. */
  | {
      readonly type: 'welcome'
      readonly join: string
      readonly body: string
      readonly mac: string
    }

const isJoin = (value: unknown): value is string => isHex(value, 32, 32)
const isMac = (value: unknown): value is string => isHex(value, 64, 64)

/** What a device said, or `undefined` for anything else; never throws. */
export function readJoinAsk(bytes: Uint8Array, decode: Decode): JoinAsk | undefined {
  const value = parsed(bytes, decode, ASK_MAX_bytes)
  if (!value || !isJoin(value.join)) return undefined
  const { type, sealingKey } = value
  const isAsk =
    (type === 'hello' && has(value, 3) && isPublicKey(sealingKey)) ||
    (type === 'poll' && has(value, 2)) ||
    (type === 'join' && has(value, 7) && isRequest(value))
  return isAsk ? (value as unknown as JoinAsk) : undefined
}

const isRequest = (value: Fields): boolean =>
  isDeviceName(value.name) &&
  isPublicKey(value.signingKey) &&
  isPublicKey(value.sealingKey) &&
  isPassKey(value.passKey) &&
  isMac(value.mac)

/** What a desk answered to that attempt, or `undefined` for anything else; never throws. */
export function readJoinAnswer(
  bytes: Uint8Array,
  join: string,
  decode: Decode,
): JoinAnswer | undefined {
  const value = parsed(bytes, decode, ANSWER_MAX_bytes)
  if (value?.join !== join) return undefined
  const { type, why, tries } = value
  const isAnswer =
    (type === 'desk' && isPublicKey(value.deskKey) && isHex(value.salt, 32, 32)) ||
    type === 'waiting' ||
    (type === 'refused' &&
      JOIN_REFUSALS.some((known) => known === why) &&
      (tries === undefined || Number.isSafeInteger(tries))) ||
    (type === 'welcome' && typeof value.body === 'string' && isMac(value.mac))
  return isAnswer ? (value as unknown as JoinAnswer) : undefined
}

/** What both sides have seen of an attempt, in one form: what a salt and every MAC is made of. */
export interface JoinTranscript {
  readonly clinic: string
  readonly join: string
  readonly deskKey: string
  readonly sealingKey: string
  readonly salt: string
}

export const transcriptText = (transcript: JoinTranscript): string => canonicalJson(transcript)

/** The text behind the MAC of a request. Bound to its direction, so that none is sent back as another. */
export const requestText = (
  transcript: JoinTranscript,
  request: Omit<JoinRequest, 'mac'>,
): string =>
  canonicalJson({
    to: 'desk',
    transcript,
    name: request.name,
    signingKey: request.signingKey,
    sealingKey: request.sealingKey,
    passKey: request.passKey,
  })

export const welcomeText = (
  transcript: JoinTranscript,
  request: Omit<JoinRequest, 'mac'>,
  body: string,
): string => canonicalJson({ to: 'device', request: requestText(transcript, request), body })

type Fields = Readonly<Record<string, unknown>>
/** UTF-8 bytes as text; throws for what is none. */
export type Decode = (bytes: Uint8Array) => string

const ASK_MAX_bytes = 4_000
const ANSWER_MAX_bytes = 900_000

function parsed(bytes: Uint8Array, decode: Decode, most: number): Fields | undefined {
  if (bytes.length > most) return undefined
  try {
    const json = parseJson(decode(bytes), 4)
    return json.ok && isRecord(json.value) ? json.value : undefined
  } catch {
    return undefined
  }
}

const has = (value: Fields, fields: number): boolean => Object.keys(value).length === fields
