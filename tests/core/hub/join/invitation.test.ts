import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  checked,
  closeInvitation,
  decided,
  hear,
  isOpen,
  openInvitation,
  type Invitation,
} from '../../../../src/core/hub/join/invitation.ts'
import { CODE_LIFE_ms } from '../../../../src/core/hub/join/joinCode.ts'
import type { JoinAsk, JoinRequest } from '../../../../src/core/hub/join/joinMessages.ts'
import { sampleDevice } from '../../../support/sampleRoster.ts'

const { sealingKey, signingKey, passKey } = sampleDevice(2)
const deskKey = sampleDevice(1).sealingKey
const joinOf = (n: number): string => n.toString(16).padStart(32, '0')
const hello = (n: number): JoinAsk => ({ type: 'hello', join: joinOf(n), sealingKey })
const poll = (n: number): JoinAsk => ({ type: 'poll', join: joinOf(n) })
const request = (n: number, changes: Partial<JoinRequest> = {}): JoinRequest => ({
  type: 'join',
  join: joinOf(n),
  name: `Chair ${n}`,
  signingKey,
  sealingKey,
  passKey,
  mac: 'ab'.repeat(32),
  ...changes,
})
const ask = (invitation: Invitation, what: JoinAsk, now_ms = 1_000) =>
  hear(invitation, what, { now_ms, deskKey, salt: '00'.repeat(16) })
const after = (invitation: Invitation, ...all: readonly JoinAsk[]): Invitation =>
  all.reduce((now, what) => ask(now, what).invitation, invitation)
const saidOf = (invitation: Invitation, what: JoinAsk, now_ms = 1_000): string => {
  const heard = ask(invitation, what, now_ms)
  if (heard.kind === 'check') return 'check'
  return heard.answer.type === 'refused' ? heard.answer.why : heard.answer.type
}
const fresh = openInvitation('ABCDEFGH', 0)
const greeted = after(fresh, hello(1))
const asked = after(greeted, request(1))
const right = checked(asked, joinOf(1), true, false, 1_000)
const welcome = { type: 'welcome', join: joinOf(1), body: '{}', mac: 'cd'.repeat(32) } as const

describe('an invitation', () => {
  it('greets, checks, waits for the person, and hands out once the person said yes', () => {
    expect(saidOf(fresh, hello(1))).toBe('desk')
    expect(saidOf(greeted, request(1))).toBe('check')
    expect(saidOf(asked, poll(1))).toBe('waiting')
    expect(saidOf(right, poll(1))).toBe('waiting')
    expect(right.asking).toBe(joinOf(1))
    const let_in = decided(right, welcome)
    expect(saidOf(let_in, poll(1))).toBe('welcome')
    expect(isOpen(let_in, 1_000)).toBe(false)
  })

  it('says the same again to whoever did not hear it, also after its end', () => {
    expect(saidOf(greeted, hello(1))).toBe('desk')
    expect(saidOf(asked, request(1))).toBe('waiting')
    const let_in = decided(right, welcome)
    expect(saidOf(let_in, request(1), 9e9)).toBe('welcome')
    expect(saidOf(let_in, poll(1), 9e9)).toBe('welcome')
  })

  it('is over after five minutes, and when the clock goes back behind its start', () => {
    expect(saidOf(fresh, hello(1), CODE_LIFE_ms - 1)).toBe('desk')
    expect(saidOf(fresh, hello(1), CODE_LIFE_ms)).toBe('codeOver')
    expect(saidOf(greeted, request(1), CODE_LIFE_ms)).toBe('codeOver')
    expect(saidOf(openInvitation('ABCDEFGH', 500), hello(1), 499)).toBe('codeOver')
    const late = checked(asked, joinOf(1), true, false, CODE_LIFE_ms)
    expect(saidOf(late, poll(1))).toBe('codeOver')
  })

  it('is over after three wrong codes, and tells how many are left', () => {
    let now = fresh
    for (const [n, left] of [
      [1, 2],
      [2, 1],
      [3, 0],
    ] as const) {
      now = checked(after(now, hello(n), request(n)), joinOf(n), false, false, 1_000)
      const heard = ask(now, poll(n))
      expect(heard.kind === 'answer' && heard.answer).toMatchObject({
        why: 'wrongCode',
        tries: left,
      })
    }
    expect(saidOf(now, hello(4))).toBe('codeOver')
  })

  it('checks no fourth code while three are being checked', () => {
    const all = after(fresh, ...[1, 2, 3, 4].map(hello), ...[1, 2, 3].map((n) => request(n)))
    expect(saidOf(all, request(4))).toBe('codeOver')
  })

  it('lets one device in: of two that know the code the second is told', () => {
    const both = after(fresh, hello(1), hello(2), request(1), request(2))
    const first = checked(both, joinOf(1), true, false, 1_000)
    const second = checked(first, joinOf(2), true, false, 1_000)
    expect(second.asking).toBe(joinOf(1))
    expect(saidOf(second, poll(2))).toBe('busy')
    expect(saidOf(decided(second, welcome), hello(3))).toBe('codeOver')
  })

  it('does not use up the code for a name that is taken', () => {
    const taken = checked(asked, joinOf(1), true, true, 1_000)
    expect(saidOf(taken, poll(1))).toBe('nameTaken')
    const again = checked(after(taken, hello(2), request(2)), joinOf(2), true, false, 1_000)
    expect(again.asking).toBe(joinOf(2))
  })

  it('tells whoever is asking when the desk takes the code back or says no', () => {
    expect(saidOf(closeInvitation(right), poll(1))).toBe('byPerson')
    expect(saidOf(closeInvitation(fresh), hello(1))).toBe('codeOver')
    const no = decided(right, { type: 'refused', join: joinOf(1), why: 'byPerson' })
    expect(saidOf(no, poll(1))).toBe('byPerson')
    // A yes that comes after the no lets nobody in.
    expect(saidOf(decided(no, welcome), poll(1))).toBe('byPerson')
  })

  it('knows no attempt that it did not begin, and none that was changed on the way', () => {
    expect(saidOf(fresh, request(1))).toBe('changed')
    expect(saidOf(fresh, poll(1))).toBe('changed')
    const other = sampleDevice(3).sealingKey
    expect(saidOf(greeted, { type: 'hello', join: joinOf(1), sealingKey: other })).toBe('changed')
    expect(saidOf(greeted, request(1, { sealingKey: other }))).toBe('changed')
    expect(saidOf(asked, request(1, { name: 'Desk' }))).toBe('changed')
    expect(saidOf(asked, request(1, { mac: '00'.repeat(32) }))).toBe('changed')
    expect(saidOf(right, request(1, { passKey: sampleDevice(3).passKey }))).toBe('changed')
  })

  it('keeps no more than a handful of attempts', () => {
    const many = after(fresh, ...Array.from({ length: 40 }, (_, n) => hello(n)))
    expect(Object.keys(many.attempts).length).toBe(16)
    expect(saidOf(many, hello(99))).toBe('busy')
  })

  it('never lets in who was not right, nor two, whatever comes in which order', () => {
    const step = fc.record({
      n: fc.integer({ min: 1, max: 4 }),
      what: fc.constantFrom('hello', 'join', 'poll', 'right', 'wrong', 'yes', 'no', 'close'),
      now_ms: fc.integer({ min: 0, max: CODE_LIFE_ms + 1 }),
    })
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        let now = fresh
        const known = new Set<string>()
        const checking = new Set<string>()
        for (const { n, what, now_ms } of steps) {
          const join = joinOf(n)
          if (what === 'hello') now = ask(now, hello(n), now_ms).invitation
          else if (what === 'poll') now = ask(now, poll(n), now_ms).invitation
          else if (what === 'join') {
            const heard = ask(now, request(n), now_ms)
            if (heard.kind === 'check') checking.add(join)
            now = heard.invitation
          } else if (what === 'yes') now = decided(now, { ...welcome, join })
          else if (what === 'no') now = decided(now, { type: 'refused', join, why: 'byPerson' })
          else if (what === 'close') now = closeInvitation(now)
          else if (checking.delete(join)) {
            if (what === 'right') known.add(join)
            now = checked(now, join, what === 'right', false, now_ms)
          }
        }
        const let_in = Object.entries(now.attempts).filter(([, a]) => a.answer?.type === 'welcome')
        expect(let_in.length).toBeLessThanOrEqual(1)
        for (const [join] of let_in) expect(known.has(join)).toBe(true)
        expect(now.tried).toBeLessThanOrEqual(3)
      }),
    )
  })
})
