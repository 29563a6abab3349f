import { defined } from '../basics/defined.ts'
import { isRecord } from '../basics/isRecord.ts'
import { parseJson } from '../text/parseJson.ts'
import type { AccessFault } from './accessFault.ts'
import { readIssues, type Issue } from './issues.ts'

export type Json = Readonly<Record<string, unknown>>

/** An answer over HTTP as it came. */
export interface RawAnswer {
  readonly status: number
  /** `Content-Type`; empty where the server names none. */
  readonly type: string
  /** `undefined` where it was longer than is read. */
  readonly text: string | undefined
  /** `Retry-After`, seconds. */
  readonly retryAfter_s?: number
}

/** What keeps everything back, whatever is sent: the way to the server, its address, the login, the server itself. */
export const SERVER_TROUBLES = [
  /** No answer could be had: no network, no such server, a certificate, or a server that forbids this page (CORS). */
  'unreachable',
  /** Nothing came in the time that is waited. */
  'silent',
  /** It leads elsewhere; nothing is sent to where nobody set it. */
  'moved',
  'login',
  /** There is no FHIR server at that address. */
  'notThere',
  /** A page for people came. */
  'html',
  /** Whatever it is, it is no answer of FHIR R4 to what was sent. */
  'notFhir',
  'tooLong',
  'busy',
  'broken',
] as const
export type ServerTrouble = (typeof SERVER_TROUBLES)[number]

/** What a FHIR server answers to one request. */
export type ServerAnswer =
  | { readonly kind: 'done'; readonly status: number; readonly body: Json }
  /** Others write the same at this moment: the same again is right. */
  | { readonly kind: 'conflict'; readonly status: number; readonly issues: readonly Issue[] }
  /** This will not be taken as it is. */
  | { readonly kind: 'refused'; readonly status: number; readonly issues: readonly Issue[] }
  | {
      readonly kind: 'trouble'
      readonly why: ServerTrouble
      readonly status?: number
      readonly retryAfter_s?: number
      /** Of `login`, where it was not the server itself that said no. */
      readonly access?: AccessFault
      readonly issues: readonly Issue[]
    }

const TROUBLE_OF: Readonly<Record<number, ServerTrouble>> = {
  401: 'login',
  405: 'notThere',
  406: 'notFhir',
  408: 'silent',
  415: 'notFhir',
  429: 'busy',
  503: 'busy',
}

/**
 * Reads an answer by the rules of HL7 FHIR R4, http.html: what each status means for create, update and transaction;
 * RFC 9110 for the rest. A server that says 200 and sends an OperationOutcome with an error has not done it.
 */
export function readAnswer(raw: RawAnswer): ServerAnswer {
  const { status, retryAfter_s } = raw
  const parsed = raw.text === undefined || raw.text === '' ? undefined : parseJson(raw.text)
  const body = parsed?.ok && isRecord(parsed.value) ? parsed.value : undefined
  const isFhir = typeof body?.['resourceType'] === 'string'
  const issues = readIssues(body)
  const trouble = (why: ServerTrouble): ServerAnswer =>
    defined({ kind: 'trouble' as const, why, status, retryAfter_s, issues })
  if (status >= 200 && status < 300) {
    if (raw.text === undefined) return trouble('tooLong')
    if (!body || !isFhir) return trouble(isHtml(raw) ? 'html' : 'notFhir')
    const isRefused = issues.some(({ severity }) => severity === 'error' || severity === 'fatal')
    return isRefused ? { kind: 'refused', status, issues } : { kind: 'done', status, body }
  }
  if (status < 400) return trouble('moved')
  if (status === 409) return { kind: 'conflict', status, issues }
  const why = TROUBLE_OF[status]
  if (why) return trouble(why)
  if (status >= 500) return trouble('broken')
  // Only a FHIR server can say that what a record refers to is not there; any other has no such address.
  const isElsewhere = status === 404 || status === 410
  if (isElsewhere && !isFhir) return trouble(isHtml(raw) ? 'html' : 'notThere')
  return { kind: 'refused', status, issues }
}

const isHtml = ({ type, text = '' }: RawAnswer): boolean =>
  /html/i.test(type) || /^\s*<(!doctype|html)/i.test(text)
