import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readRoster } from '../../../src/core/hub/readRoster.ts'
import type { TrustedDevice } from '../../../src/core/hub/roster.ts'
import { sampleDevice, sampleRoster, unsignedSample } from '../../support/sampleRoster.ts'

const good = unsignedSample(sampleRoster([sampleDevice(1), sampleDevice(2, { revoked_ms: 5 })]))
const faultOf = (value: unknown): string => {
  const read = readRoster(typeof value === 'string' ? value : JSON.stringify(value))
  return read.ok ? 'read' : read.faults.join()
}
const withDevices = (...devices: readonly TrustedDevice[]) => unsignedSample(sampleRoster(devices))
const withDevice = (changes: object) =>
  withDevices(sampleDevice(1), { ...sampleDevice(2), ...changes })

it('reads a roster as it is', () => {
  expect(readRoster(JSON.stringify(good))).toEqual({ ok: true, value: good })
})

describe('a roster is refused', () => {
  it.each<[string, unknown, string]>([
    ['no JSON', '{"roster":', 'notJson'],
    ['a key twice', '{"roster":1,"roster":2}', 'notJson'],
    ['a prototype', '{"__proto__":{}}', 'notJson'],
    ['nested without end', '['.repeat(5000), 'notJson'],
    ['a list', [], 'shape'],
    ['nothing', 'null', 'shape'],
    ['a field more', { ...good, note: '' }, 'shape'],
    ['another format', { ...good, roster: { ...good.roster, format: 'x' } }, 'otherFormat'],
    ['of a newer app', { ...good, roster: { ...good.roster, version: 2 } }, 'newer'],
    ['edition 0', { ...good, roster: { ...good.roster, edition: 0 } }, 'shape'],
    ['edition 1.5', { ...good, roster: { ...good.roster, edition: 1.5 } }, 'shape'],
    ['no clinic', { ...good, roster: { ...good.roster, clinic: '' } }, 'shape'],
    ['a signature in capitals', { ...good, signature: 'AB' }, 'shape'],
    ['devices as an object', { ...good, roster: { ...good.roster, devices: {} } }, 'shape'],
    ['too many', withDevices(...Array.from({ length: 501 }, (_, n) => sampleDevice(n))), 'shape'],
    ['nobody', withDevices(), 'noDesk'],
    ['no desk', withDevices(sampleDevice(2)), 'noDesk'],
    ['a desk cut off', withDevices(sampleDevice(1, { revoked_ms: 1 })), 'noDesk'],
    ['a name that runs backwards', withDevice({ name: 'Chair \u202E2' }), 'device'],
    ['a name with a line break', withDevice({ name: 'Chair\n2' }), 'device'],
    ['a name with two spaces', withDevice({ name: 'Chair  2' }), 'device'],
    ['a long name', withDevice({ name: 'x'.repeat(41) }), 'device'],
    ['no name', withDevice({ name: '' }), 'device'],
    ['a key on another curve', withDevice({ signingKey: '30'.repeat(91) }), 'device'],
    [
      'a compressed point',
      withDevice({ sealingKey: sampleDevice(2).sealingKey.replace(/04/g, '02') }),
      'device',
    ],
    ['a pass in small letters', withDevice({ passKey: 'u'.repeat(56) }), 'device'],
    ['a time before the epoch', withDevice({ since_ms: -1 }), 'device'],
    ['a time as text', withDevice({ since_ms: '5' }), 'device'],
    ['revoked at no time', withDevice({ revoked_ms: null }), 'device'],
    ['desk by a word', withDevice({ isDesk: 'yes' }), 'device'],
    ['a device with a field more', withDevice({ note: 'x' }), 'device'],
    ['an id twice', withDevice({ id: 'D1' }), 'twice'],
    ['a name twice', withDevice({ name: 'CHAIR 1' }), 'twice'],
    ['a name that looks alike', withDevice({ name: 'Chair １' }), 'twice'],
    ['a signing key twice', withDevice({ signingKey: sampleDevice(1).signingKey }), 'twice'],
    ['a pass twice', withDevice({ passKey: sampleDevice(1).passKey }), 'twice'],
    ['no keys for a device', { ...good, keys: {} }, 'keys'],
    ['keys for one cut off', { ...good, keys: { ...good.keys, D2: good.keys.D1 } }, 'keys'],
    ['keys that are none', { ...good, keys: { D1: { from: '', iv: '', data: '' } } }, 'keys'],
  ])('%s', (_, value, fault) => {
    expect(faultOf(value)).toBe(fault)
  })

  it('whose name is one that was cut off: no, a name may come again', () => {
    const again = withDevices(
      sampleDevice(1),
      sampleDevice(2, { revoked_ms: 5 }),
      sampleDevice(3, { name: 'Chair 2' }),
    )
    expect(faultOf(again)).toBe('read')
  })

  it('whatever is put in the place of any value, and it never throws', () => {
    const places = pathsOf(good)
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue(), (path, value) => {
        const read = readRoster(JSON.stringify(put(good, path, value)))
        // What is read has kept its shape: reading what was read gives the same.
        if (read.ok) expect(readRoster(JSON.stringify(read.value))).toEqual(read)
      }),
    )
    fc.assert(fc.property(fc.string(), (text) => void readRoster(text)))
  })
})

type Path = readonly string[]
function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [path, ...Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]))]
}
function put(whole: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (key === undefined) return value
  const copy = (
    Array.isArray(whole) ? [...(whole as unknown[])] : { ...(whole as object) }
  ) as Record<string, unknown>
  copy[key] = put(copy[key], rest, value)
  return copy
}
