import { describe, expect, it } from 'vitest'
import { devicesInUse, rosterText, verdictOf } from '../../../src/core/hub/roster.ts'
import { sampleDevice, sampleRoster, unsignedSample } from '../../support/sampleRoster.ts'

const revoked = sampleDevice(3, { revoked_ms: 50_000 })
const roster = sampleRoster([sampleDevice(1), sampleDevice(2), revoked])

describe('what a device sent', () => {
  it.each([
    ['D2', 2_000, 'trusted'],
    ['D2', 9e12, 'trusted'],
    ['D3', 49_999, 'trusted'],
    ['D3', 50_000, 'revoked'],
    ['D3', 9e12, 'revoked'],
    ['D4', 1, 'unknown'],
    ['', 1, 'unknown'],
    ['constructor', 1, 'unknown'],
    ['d2', 1, 'unknown'],
  ] as const)('of %s taken at %d is %s', (device, at_ms, verdict) => {
    expect(verdictOf(roster, device, at_ms)).toBe(verdict)
  })

  it('is of a device in use until that is cut off', () => {
    expect(devicesInUse(roster).map(({ id }) => id)).toEqual(['D1', 'D2'])
  })
})

describe('the text that a desk signs', () => {
  it('is one form, whatever the order of the fields', () => {
    const signed = unsignedSample(roster)
    const turned = {
      ...signed,
      keys: Object.fromEntries(Object.entries(signed.keys).reverse()),
      roster: Object.fromEntries(Object.entries(signed.roster).reverse()) as never,
    }
    expect(rosterText(turned)).toBe(rosterText(signed))
  })

  it('changes with every field but the signature', () => {
    const signed = unsignedSample(roster)
    const text = rosterText(signed)
    expect(rosterText({ ...signed, by: 'D2' })).not.toBe(text)
    expect(rosterText({ ...signed, keys: {} })).not.toBe(text)
    expect(rosterText({ ...signed, roster: { ...roster, edition: 2 } })).not.toBe(text)
    const renamed = [sampleDevice(1, { name: 'X' }), sampleDevice(2), revoked]
    expect(rosterText({ ...signed, roster: sampleRoster(renamed) })).not.toBe(text)
    expect(rosterText({ ...signed, signature: 'cd' } as typeof signed)).toBe(text)
  })
})
