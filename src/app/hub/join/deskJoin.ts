import { createEmitter } from '../../../core/basics/emitter.ts'
import { welcomeBody } from '../../../core/hub/membership.ts'
import {
  checked,
  closeInvitation,
  decided,
  endsIn_ms,
  hear,
  isOpen,
  openInvitation,
  type Invitation,
} from '../../../core/hub/join/invitation.ts'
import { writeJoinCode } from '../../../core/hub/join/joinCode.ts'
import {
  readJoinAsk,
  requestText,
  transcriptText,
  welcomeText,
  type JoinAnswer,
  type JoinRequest,
  type JoinTranscript,
} from '../../../core/hub/join/joinMessages.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { Hub } from '../../../ports/hub.ts'
import type { JoinCrypto } from '../../../ports/joinCrypto.ts'
import type { DeskActs } from '../deskActs.ts'

/** What the desk's screen shows of its invitation. */
export interface InvitationView {
  readonly code: string
  readonly left_ms: number
  readonly tried: number
  readonly isOpen: boolean
  /** The device that knew the code: the person decides. */
  readonly asking?: { readonly name: string; readonly keyName: string }
  /** What came of it. */
  readonly outcome?: 'admitted' | 'refused' | 'failed'
}

export interface DeskJoin {
  /** A new code; an earlier one is over. */
  invite(): void
  /** The person says yes to the device that is asking. Rejects where it could not be let in; it may be tried again. */
  admit(): Promise<void>
  refuse(): void
  close(): void
  /** Another desk shows a code: who asks anew is left to that one. */
  leaveToOthers(): void
  view(): InvitationView | undefined
  readonly onChange: (observer: () => void) => () => void
}

export interface DeskJoinDeps {
  readonly hub: Hub
  readonly clock: Clock
  readonly crypto: JoinCrypto
  readonly acts: Pick<DeskActs, 'admit' | 'isNameTaken'>
  readonly clinic: string
  /** Public ECDH key of this desk. */
  readonly deskKey: () => Promise<string>
  /** A short name for a public key, the same on both screens. */
  readonly keyName: (publicKey: string) => string
}

const decode = (bytes: Uint8Array): string =>
  new TextDecoder('utf-8', { fatal: true }).decode(bytes)
const hexOf = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')

/** A desk lets devices in: shows a code, checks who knows it, asks the person, then hands out what they need. */
export function createDeskJoin(deps: DeskJoinDeps): DeskJoin {
  const { hub, clock, crypto, acts, clinic } = deps
  const changes = createEmitter<void>()
  const keys = new Map<string, string>()
  let invitation: Invitation | undefined
  let outcome: InvitationView['outcome']
  let admitting: Promise<void> | undefined
  let isLeft = false
  let stop = (): void => undefined

  const now_ms = (): number => clock.read().mono_ms
  const become = (next: Invitation): void => {
    invitation = next
    changes.emit()
  }
  const seen = (
    join: string,
    sealingKey: string,
    salt: string,
    deskKey: string,
  ): JoinTranscript => ({
    clinic,
    join,
    deskKey,
    sealingKey,
    salt,
  })
  const transcriptOf = async (of: Invitation, request: JoinRequest): Promise<JoinTranscript> => {
    const salt = of.attempts[request.join]?.salt ?? ''
    return seen(request.join, request.sealingKey, salt, await deps.deskKey())
  }
  const asking = (): JoinRequest | undefined =>
    invitation?.asking === undefined ? undefined : invitation.attempts[invitation.asking]?.request

  async function check(of: Invitation, request: JoinRequest): Promise<void> {
    const transcript = await transcriptOf(of, request)
    const key = await crypto.key(of.code, transcriptText(transcript))
    const isRight = crypto.mac(key, requestText(transcript, request)) === request.mac
    if (invitation?.code !== of.code) return
    if (isRight) keys.set(request.join, key)
    const isTaken = acts.isNameTaken(request.name, request.signingKey)
    become(checked(invitation, request.join, isRight, isTaken, now_ms()))
  }

  async function answer(bytes: Uint8Array): Promise<Uint8Array | undefined> {
    const ask = readJoinAsk(bytes, decode)
    // Another desk may be the one that is meant.
    if (!ask || !invitation) return undefined
    if (isLeft && !Object.hasOwn(invitation.attempts, ask.join)) return undefined
    const deskKey = await deps.deskKey()
    const heard = hear(invitation, ask, { now_ms: now_ms(), deskKey, salt: hexOf(crypto.lot(16)) })
    become(heard.invitation)
    // The slow key takes longer than an answer may: the device asks again.
    if (heard.kind === 'check') void check(heard.invitation, heard.request).catch(() => undefined)
    const said: JoinAnswer =
      heard.kind === 'check' ? { type: 'waiting', join: ask.join } : heard.answer
    return new TextEncoder().encode(JSON.stringify(said))
  }

  async function letIn(of: Invitation, request: JoinRequest): Promise<void> {
    const key = keys.get(request.join)
    if (key === undefined) return
    const { mac: _, ...bare } = request
    const welcome = await acts.admit(bare)
    const body = welcomeBody(welcome)
    const mac = crypto.mac(key, welcomeText(await transcriptOf(of, request), bare, body))
    outcome = 'admitted'
    if (invitation) become(decided(invitation, { type: 'welcome', join: request.join, body, mac }))
  }

  function closeNow(): void {
    if (!invitation || admitting) return
    become(closeInvitation(invitation))
  }

  return {
    invite() {
      stop()
      keys.clear()
      outcome = undefined
      isLeft = false
      stop = hub.onAsk(answer)
      become(openInvitation(writeJoinCode(crypto.lot(8)), now_ms()))
    },
    admit() {
      const request = asking()
      if (!invitation || !request) return Promise.resolve()
      // The same button twice is one act.
      admitting ??= letIn(invitation, request)
        .catch((error: unknown) => {
          outcome = 'failed'
          changes.emit()
          throw error
        })
        .finally(() => (admitting = undefined))
      return admitting
    },
    refuse() {
      const request = asking()
      if (!invitation || !request || admitting) return
      outcome = 'refused'
      become(decided(invitation, { type: 'refused', join: request.join, why: 'byPerson' }))
    },
    close: closeNow,
    leaveToOthers() {
      isLeft = true
      closeNow()
    },
    view() {
      if (!invitation) return undefined
      const request = asking()
      return {
        code: invitation.code,
        left_ms: endsIn_ms(invitation, now_ms()),
        tried: invitation.tried,
        isOpen: isOpen(invitation, now_ms()),
        ...(request && {
          asking: { name: request.name, keyName: deps.keyName(request.signingKey) },
        }),
        ...(outcome && { outcome }),
      }
    },
    onChange: changes.observe,
  }
}
