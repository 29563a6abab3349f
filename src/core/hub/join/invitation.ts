import { CODE_LIFE_ms, CODE_TRIES } from './joinCode.ts'
import type { JoinAnswer, JoinAsk, JoinRefusal, JoinRequest } from './joinMessages.ts'

/** One device that tries to join by a code. */
export interface Attempt {
  readonly sealingKey: string
  readonly salt: string
  /** What it asked for; absent until it did. */
  readonly request?: JoinRequest
  readonly answer?: Extract<JoinAnswer, { readonly type: 'refused' | 'welcome' }>
}

/** A desk's invitation to one device, by a code. Times by a clock that nobody can set, ms. */
export interface Invitation {
  readonly code: string
  readonly opened_ms: number
  /** Wrong codes so far, and those that are being checked. */
  readonly tried: number
  readonly attempts: Readonly<Record<string, Attempt>>
  /** The attempt whose code was right: the person is asked about it. */
  readonly asking?: string
  /** Nobody is let in by this code any more. */
  readonly isOver: boolean
}

/** So many devices may be at it at one time; more is somebody who wants to fill this desk's memory. */
const ATTEMPTS_MAX = 16

export const openInvitation = (code: string, now_ms: number): Invitation => ({
  code,
  opened_ms: now_ms,
  tried: 0,
  attempts: {},
  isOver: false,
})

export const endsIn_ms = ({ opened_ms }: Invitation, now_ms: number): number =>
  Math.max(0, opened_ms + CODE_LIFE_ms - now_ms)

export const isOpen = (invitation: Invitation, now_ms: number): boolean =>
  !invitation.isOver && endsIn_ms(invitation, now_ms) > 0 && now_ms >= invitation.opened_ms

/** What a desk does about something that was asked: an answer now, or the code is to be checked first. */
export type Heard =
  | { readonly kind: 'answer'; readonly invitation: Invitation; readonly answer: JoinAnswer }
  | { readonly kind: 'check'; readonly invitation: Invitation; readonly request: JoinRequest }

interface Now {
  readonly now_ms: number
  readonly deskKey: string
  /** For an attempt that begins with this. */
  readonly salt: string
}

/** Hears what a device asks. The same again gets the same answer: answers get lost. */
export function hear(invitation: Invitation, ask: JoinAsk, now: Now): Heard {
  const { join } = ask
  const attempt = Object.hasOwn(invitation.attempts, join) ? invitation.attempts[join] : undefined
  const say = (answer: JoinAnswer, next = invitation): Heard => ({
    kind: 'answer',
    invitation: next,
    answer,
  })
  const refuse = (why: JoinRefusal): Heard => say({ type: 'refused', join, why })

  if (ask.type === 'hello') {
    if (attempt && attempt.sealingKey !== ask.sealingKey) return refuse('changed')
    if (attempt) return say({ type: 'desk', join, deskKey: now.deskKey, salt: attempt.salt })
    if (!isOpen(invitation, now.now_ms)) return refuse('codeOver')
    if (Object.keys(invitation.attempts).length >= ATTEMPTS_MAX) return refuse('busy')
    const begun: Attempt = { sealingKey: ask.sealingKey, salt: now.salt }
    return say(
      { type: 'desk', join, deskKey: now.deskKey, salt: now.salt },
      withAttempt(invitation, join, begun),
    )
  }
  if (!attempt) return refuse(isOpen(invitation, now.now_ms) ? 'changed' : 'codeOver')
  if (ask.type === 'join' && attempt.request && !isSame(attempt.request, ask)) {
    return refuse('changed')
  }
  if (attempt.answer) return say(attempt.answer)
  if (attempt.request || ask.type === 'poll') return say({ type: 'waiting', join })
  if (ask.sealingKey !== attempt.sealingKey) return refuse('changed')
  if (!isOpen(invitation, now.now_ms)) return refuse('codeOver')
  if (invitation.asking !== undefined) return refuse('busy')
  if (invitation.tried >= CODE_TRIES) return refuse('codeOver')
  // Counted before it is checked, so that many at once are no more tries than one after the other.
  const counted = { ...invitation, tried: invitation.tried + 1 }
  const next = withAttempt(counted, join, { ...attempt, request: ask })
  return { kind: 'check', invitation: next, request: ask }
}

/**
 * What comes of a check.
 * @param isTaken whether a device in use has that name already
 */
export function checked(
  invitation: Invitation,
  join: string,
  isRight: boolean,
  isTaken: boolean,
  now_ms: number,
): Invitation {
  if (!isRight) {
    const tries = CODE_TRIES - invitation.tried
    const isOver = invitation.isOver || (tries <= 0 && invitation.asking === undefined)
    return refused({ ...invitation, isOver }, join, 'wrongCode', Math.max(0, tries))
  }
  // Who knew the code made no wrong try.
  const forgiven = { ...invitation, tried: invitation.tried - 1 }
  if (!isOpen(invitation, now_ms)) return refused(forgiven, join, 'codeOver')
  if (invitation.asking !== undefined) return refused(forgiven, join, 'busy')
  if (isTaken) return refused(forgiven, join, 'nameTaken')
  return { ...forgiven, asking: join }
}

/** The person at the desk was asked and answered: either way the code is used up. */
export function decided(
  invitation: Invitation,
  answer: Extract<JoinAnswer, { readonly type: 'refused' | 'welcome' }>,
): Invitation {
  const attempt = invitation.attempts[answer.join]
  if (invitation.asking !== answer.join || !attempt || attempt.answer) return invitation
  const { asking: _, ...rest } = invitation
  return withAttempt({ ...rest, isOver: true }, answer.join, { ...attempt, answer })
}

/** The desk takes the code back. Who was asking is told. */
export function closeInvitation(invitation: Invitation): Invitation {
  const { asking } = invitation
  return asking === undefined
    ? { ...invitation, isOver: true }
    : decided(invitation, { type: 'refused', join: asking, why: 'byPerson' })
}

function refused(
  invitation: Invitation,
  join: string,
  why: JoinRefusal,
  tries?: number,
): Invitation {
  const attempt = invitation.attempts[join]
  if (!attempt) return invitation
  const answer = { type: 'refused', join, why, ...(tries !== undefined && { tries }) } as const
  return withAttempt(invitation, join, { ...attempt, answer })
}

const withAttempt = (invitation: Invitation, join: string, attempt: Attempt): Invitation => ({
  ...invitation,
  attempts: { ...invitation.attempts, [join]: attempt },
})

const isSame = (a: JoinRequest, b: JoinRequest): boolean =>
  a.name === b.name &&
  a.signingKey === b.signingKey &&
  a.sealingKey === b.sealingKey &&
  a.passKey === b.passKey &&
  a.mac === b.mac
