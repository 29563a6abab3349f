import { readWelcome, type Membership } from '../../../core/hub/membership.ts'
import {
  readJoinAnswer,
  requestText,
  transcriptText,
  welcomeText,
  type JoinAnswer,
  type JoinAsk,
  type JoinRefusal,
} from '../../../core/hub/join/joinMessages.ts'
import { CODE_LIFE_ms, readJoinCode } from '../../../core/hub/join/joinCode.ts'
import { deviceOf, rosterText } from '../../../core/hub/roster.ts'
import type { VerifySignature } from '../../../core/log/exportFile.ts'
import { ClinicKeyError, type ClinicKeys } from '../../../ports/clinicKeys.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import { HubError } from '../../../ports/hubFault.ts'
import type { HubRights } from '../../../ports/hubRights.ts'
import type { JoinCrypto } from '../../../ports/joinCrypto.ts'
import { wakeIn } from '../../../ports/patience.ts'

/** Why a device did not come in. */
export type JoinFailure =
  | JoinRefusal
  /** No code. */
  | 'noCode'
  /** No desk shows a code. */
  | 'noDesk'
  /** The hub cannot be reached. */
  | 'noHub'
  /** What was handed out does not check: whoever answered does not know the code. */
  | 'forged'
  /** The keys that were handed out cannot be kept here: the records are locked, or the disk refuses. */
  | 'notKept'
  /** Nobody at the desk has said yes or no in time. */
  | 'tooLate'
  | 'stopped'

export type Joined =
  | { readonly kind: 'joined'; readonly membership: Membership }
  | { readonly kind: 'refused'; readonly why: JoinFailure; readonly tries?: number }

export interface JoinClinicDeps {
  /** With a joining pass, started. */
  readonly hub: Hub
  readonly clinic: string
  readonly clock: Clock
  readonly crypto: JoinCrypto
  readonly keys: ClinicKeys
  readonly rights: Pick<HubRights, 'newPass'>
  readonly signingKey: () => Promise<string>
  readonly verify: VerifySignature
  /** Told when the code was sent and the person at the desk is being asked. */
  readonly onWaiting?: () => void
  readonly isStopped?: () => boolean
  /** So long between two questions. */
  readonly poll_ms?: number
}

const POLL_ms = 1_000
/** So often in a row nobody may answer: a desk that was closed in the middle does not come back with this code. */
const SILENT_MAX = 5

const decode = (bytes: Uint8Array): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(bytes)
const hexOf = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
const refusal = (why: JoinFailure, tries?: number): Joined => ({
  kind: 'refused',
  why,
  ...(tries !== undefined && { tries }),
})

/** Joins a clinic by the code that one of its desks shows. Nothing is kept here but the device's own new keys. */
export async function joinClinic(
  typed: string,
  name: string,
  deps: JoinClinicDeps,
): Promise<Joined> {
  const { hub, clinic, clock, crypto, keys, rights } = deps
  const code = readJoinCode(typed)
  if (code === undefined) return refusal('noCode')
  const join = hexOf(crypto.lot(16))
  const end_ms = clock.read().mono_ms + CODE_LIFE_ms + 60_000
  let silent = 0

  /** Asks until somebody answers; what nobody answers is asked again. */
  async function ask(what: JoinAsk): Promise<JoinAnswer | JoinFailure> {
    const bytes = new TextEncoder().encode(JSON.stringify(what))
    for (;;) {
      if (deps.isStopped?.()) return 'stopped'
      if (clock.read().mono_ms > end_ms) return 'tooLate'
      try {
        const answer = readJoinAnswer(await hub.ask(bytes), join, decode)
        silent = 0
        return answer ?? 'changed'
      } catch (error) {
        const fault = error instanceof HubError ? error.fault : 'unknown'
        if (fault === 'stopped') return 'stopped'
        if ((silent += 1) >= SILENT_MAX) return fault === 'noAnswer' ? 'noDesk' : 'noHub'
        await pause(deps)
      }
    }
  }

  const sealingKey = await keys.identity()
  const greeted = await ask({ type: 'hello', join, sealingKey })
  if (typeof greeted === 'string') return refusal(greeted)
  if (greeted.type === 'refused') return refusal(greeted.why, greeted.tries)
  if (greeted.type !== 'desk') return refusal('changed')
  const { deskKey, salt } = greeted
  const transcript = { clinic, join, deskKey, sealingKey, salt }
  const key = await crypto.key(code, transcriptText(transcript))
  const { passKey, seed } = await rights.newPass()
  const bare = {
    type: 'join',
    join,
    name,
    signingKey: await deps.signingKey(),
    sealingKey,
    passKey,
  } as const
  let answer = await ask({ ...bare, mac: crypto.mac(key, requestText(transcript, bare)) })
  while (typeof answer !== 'string' && answer.type === 'waiting') {
    deps.onWaiting?.()
    await pause(deps)
    answer = await ask({ type: 'poll', join })
  }
  if (typeof answer === 'string') return refusal(answer)
  if (answer.type === 'refused') return refusal(answer.why, answer.tries)
  if (answer.type !== 'welcome') return refusal('changed')
  if (crypto.mac(key, welcomeText(transcript, bare, answer.body)) !== answer.mac) {
    return refusal('forged')
  }
  const membership = readWelcome(answer.body, seed)
  const why = membership ? await faultOf(membership, bare, deps) : 'forged'
  return membership && !why ? { kind: 'joined', membership } : refusal(why ?? 'forged')
}

/** Why what was handed out is not about this device, not signed by a desk that is in it, or does not open. */
async function faultOf(
  { clinic, device, roster: signed }: Membership,
  bare: { readonly signingKey: string; readonly sealingKey: string; readonly passKey: string },
  deps: JoinClinicDeps,
): Promise<'forged' | 'notKept' | undefined> {
  const me = deviceOf(signed.roster, device)
  const desk = deviceOf(signed.roster, signed.by)
  const wrapped = Object.hasOwn(signed.keys, device) ? signed.keys[device] : undefined
  const isMe =
    clinic === deps.clinic &&
    me?.revoked_ms === undefined &&
    me?.signingKey === bare.signingKey &&
    me.sealingKey === bare.sealingKey &&
    me.passKey === bare.passKey
  if (!isMe || !desk?.isDesk || !wrapped) return 'forged'
  if (!(await deps.verify(desk.signingKey, rosterText(signed), signed.signature))) return 'forged'
  try {
    const names = await deps.keys.accept(wrapped)
    if (!names.includes(signed.roster.key)) return 'forged'
    await deps.keys.use(signed.roster.key)
    return undefined
  } catch (error) {
    const isForged = error instanceof ClinicKeyError && error.fault === 'notForUs'
    return isForged ? 'forged' : 'notKept'
  }
}

const pause = ({ clock, poll_ms = POLL_ms }: JoinClinicDeps): Promise<void> =>
  new Promise((resolve) => void wakeIn(clock, poll_ms, resolve))
