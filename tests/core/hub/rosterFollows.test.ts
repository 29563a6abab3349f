import { describe, expect, it } from 'vitest'
import type { Roster, TrustedDevice } from '../../../src/core/hub/roster.ts'
import { signerOf, successionFault } from '../../../src/core/hub/rosterFollows.ts'
import { sampleDevice, sampleRoster, unsignedSample } from '../../support/sampleRoster.ts'

const cutOff = sampleDevice(3, { revoked_ms: 50_000 })
const known = sampleRoster([sampleDevice(1), sampleDevice(2), cutOff], 4)
const next = (devices: readonly TrustedDevice[], changes: Partial<Roster> = {}, by = 'D1') =>
  unsignedSample({ ...sampleRoster(devices, 5), ...changes }, by)
const [desk, chair] = known.devices as [TrustedDevice, TrustedDevice]

describe('an edition follows', () => {
  it.each<[string, ReturnType<typeof next>]>([
    ['with a device more', next([...known.devices, sampleDevice(4)])],
    ['with a device cut off', next([desk, { ...chair, revoked_ms: 60_000 }, cutOff])],
    ['with another name', next([desk, { ...chair, name: 'Bench' }, cutOff])],
    ['with a desk more', next([desk, { ...chair, isDesk: true }, cutOff])],
    ['with a new pass', next([desk, { ...chair, passKey: 'U'.repeat(56) }, cutOff])],
    ['with another key in force', next(known.devices, { key: 'fedcba9876543210' })],
  ])('%s', (_, edition) => {
    expect(successionFault(known, edition)).toBeUndefined()
    expect(signerOf(known, edition)).toBe(desk)
  })
})

describe('an edition does not follow', () => {
  const added = sampleDevice(4, { isDesk: true })
  it.each<[string, ReturnType<typeof next>, string]>([
    ['the same again', next(known.devices, { edition: 4 }), 'older'],
    ['an older one', next(known.devices, { edition: 1 }), 'older'],
    ['the one after the next', next(known.devices, { edition: 6 }), 'gap'],
    ['of another clinic', next(known.devices, { clinic: 'c2' }), 'otherClinic'],
    ['signed by a chair', next(known.devices, {}, 'D2'), 'noDesk'],
    ['signed by one cut off', next(known.devices, {}, 'D3'), 'noDesk'],
    ['signed by a stranger', next(known.devices, {}, 'D9'), 'noDesk'],
    [
      'signed by the desk that it brings itself',
      next([...known.devices, added], {}, 'D4'),
      'noDesk',
    ],
    [
      'a chair that makes itself a desk',
      next([desk, { ...chair, isDesk: true }, cutOff], {}, 'D2'),
      'noDesk',
    ],
    ['without a device', next([desk, cutOff]), 'deviceGone'],
    ['without one cut off', next([desk, chair]), 'deviceGone'],
    [
      'another signing key',
      next([desk, { ...chair, signingKey: cutOff.signingKey }, cutOff]),
      'deviceChanged',
    ],
    ['another time', next([desk, { ...chair, since_ms: 1 }, cutOff]), 'deviceChanged'],
    ['one cut off is back', next([desk, chair, sampleDevice(3)]), 'revokedBack'],
    ['cut off at another time', next([desk, chair, { ...cutOff, revoked_ms: 9e9 }]), 'revokedBack'],
  ])('%s', (_, edition, fault) => {
    expect(successionFault(known, edition)).toBe(fault)
  })
})
