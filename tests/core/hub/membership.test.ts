import { describe, expect, it } from 'vitest'
import {
  membershipText,
  readMembership,
  readWelcome,
  welcomeBody,
  type Membership,
} from '../../../src/core/hub/membership.ts'
import { sampleRoster, unsignedSample } from '../../support/sampleRoster.ts'

const roster = unsignedSample(sampleRoster())
const kept: Membership = { clinic: 'c1', device: 'D2', pass: { jwt: 'a.b.c', seed: 'SU' }, roster }

describe('what makes a device one of its clinic', () => {
  it('is read as it was kept', () => {
    expect(readMembership(membershipText(kept))).toEqual(kept)
  })

  it('is what a desk handed out, with the seed of the device itself', () => {
    const body = welcomeBody({ clinic: 'c1', device: 'D2', jwt: 'a.b.c', roster })
    expect(body).not.toContain('SU')
    expect(readWelcome(body, 'SU')).toEqual(kept)
  })

  it.each<[string, object]>([
    ['another version', { version: 2 }],
    ['another clinic than its roster', { clinic: 'c2' }],
    ['a device that is not in the roster', { device: 'D9' }],
    ['no pass', { pass: null }],
    ['a pass without a seed', { pass: { jwt: 'a' } }],
    ['a roster that is none', { roster: '{}' }],
    ['a roster that is no text', { roster: roster.roster }],
  ])('is refused with %s', (_, change) => {
    const text = JSON.stringify({ ...(JSON.parse(membershipText(kept)) as object), ...change })
    expect(readMembership(text)).toBeUndefined()
  })

  it.each(['', 'null', '[]', '{"version":1}'])('is not %s', (text) => {
    expect(readMembership(text)).toBeUndefined()
    expect(readWelcome(text, 'SU')).toBeUndefined()
  })
})
