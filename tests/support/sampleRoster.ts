import type { Roster, SignedRoster, TrustedDevice } from '../../src/core/hub/roster.ts'
import type { WrappedKeys } from '../../src/core/hub/wrappedKeys.ts'

const SPKI_HEAD = '3059301306072a8648ce3d020106082a8648ce3d03010703420004'
/** Has the form of a public key and is none: for tests that check no signature. */
const formOfKey = (n: number): string => SPKI_HEAD + n.toString(16).padStart(4, '0').repeat(32)

export const sampleWrapped: WrappedKeys = {
  from: formOfKey(900),
  iv: '00'.repeat(12),
  data: 'ab'.repeat(64),
}

/** An invented device, all its keys by its number. */
export function sampleDevice(n: number, changes: Partial<TrustedDevice> = {}): TrustedDevice {
  return {
    id: `D${n}`,
    name: `Chair ${n}`,
    signingKey: formOfKey(n),
    sealingKey: formOfKey(100 + n),
    passKey: `UABCDEFGHIJKLMNOPQRSTUVWX${n}`,
    since_ms: 1_000 * n,
    isDesk: n === 1,
    ...changes,
  }
}

export function sampleRoster(
  devices: readonly TrustedDevice[] = [sampleDevice(1), sampleDevice(2)],
  edition = 1,
): Roster {
  return {
    format: 'stillhand-roster',
    version: 1,
    clinic: 'c1',
    edition,
    key: '0123456789abcdef',
    devices,
  }
}

/** With keys for each device in use, signed by nobody. */
export function unsignedSample(roster: Roster, by = 'D1'): SignedRoster {
  const ids = roster.devices.filter((d) => d.revoked_ms === undefined).map((d) => d.id)
  return {
    roster,
    keys: Object.fromEntries(ids.map((id) => [id, sampleWrapped])),
    by,
    signature: 'ab'.repeat(64),
  }
}
