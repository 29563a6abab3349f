import { describe, expect, it } from 'vitest'
import { readEnvelope, sealContext, type Envelope } from '../../../src/core/hub/envelope.ts'
import { dayLogName, drawLogName, readLogName } from '../../../src/core/hub/logNames.ts'

const sound: Envelope = {
  format: 'stillhand-envelope',
  version: 1,
  kind: 'entry',
  log: 'draw-A1-20261127-0001',
  seq: 3,
  hash: 'a'.repeat(64),
  device: 'chair-1',
  key: 'k1',
  iv: '0'.repeat(24),
  data: 'AAAA',
  signature: 'ab',
}
const faultOf = (value: unknown): unknown => {
  const read = readEnvelope(typeof value === 'string' ? value : JSON.stringify(value))
  return read.ok ? undefined : read.faults[0]
}

describe('an envelope', () => {
  it('is read whole', () => {
    expect(readEnvelope(JSON.stringify(sound))).toEqual({ ok: true, value: sound })
  })

  it.each<[string, unknown]>([
    ['no JSON', '{'],
    ['nothing', ''],
    ['nested too deep', '{"format":"stillhand-envelope","data":[[[1]]]}'],
    ['a name twice', JSON.stringify(sound).replace('{', '{"log":"draw-other",')],
  ])('%s is not taken', (_, text) => expect(faultOf(text)).toBe('notJson'))

  it('of another make or a newer version is named as that', () => {
    expect(faultOf([])).toBe('foreign')
    expect(faultOf({ ...sound, format: 'x' })).toBe('foreign')
    expect(faultOf({ ...sound, version: 2 })).toBe('newer')
  })

  it.each<[string, Partial<Record<keyof Envelope | 'more', unknown>>]>([
    ['a kind that is none', { kind: 'erase' }],
    ['no log', { log: '' }],
    ['number 0 for an entry', { seq: 0 }],
    ['half a number', { seq: 1.5 }],
    ['a hash in capitals', { hash: 'A'.repeat(64) }],
    ['an iv of another length', { iv: '00' }],
    ['data that is no base64', { data: 'A===' }],
    ['data that is empty', { data: '' }],
    ['a signature that is no hex', { signature: 'xyz' }],
    ['a field that nobody knows', { more: 1 }],
    ['a hand-over behind nothing that names an entry', { kind: 'writer', seq: 0 }],
  ])('with %s has no shape', (_, change) => expect(faultOf({ ...sound, ...change })).toBe('shape'))

  it.each(Object.keys(sound).filter((name) => name !== 'format'))(
    'without %s has no shape',
    (name) => {
      const rest = Object.fromEntries(Object.entries(sound).filter(([key]) => key !== name))
      expect(faultOf(rest)).toBe('shape')
    },
  )

  it('is bound to its kind, its log and its number', () => {
    expect(sealContext(sound)).toBe('entry/draw-A1-20261127-0001/3')
    expect(sealContext({ ...sound, kind: 'writer' })).not.toBe(sealContext(sound))
  })
})

describe('the name of a log', () => {
  it('tells what it is of', () => {
    expect(readLogName(drawLogName('A1-20261127-0001'))).toEqual({
      kind: 'draw',
      drawId: 'A1-20261127-0001',
    })
    expect(readLogName(dayLogName('2026-11-27', 'chair-1'))).toEqual({
      kind: 'day',
      day: '2026-11-27',
      device: 'chair-1',
    })
  })

  it.each(['', 'draw-', 'day-2026-11-27', 'day-27-a', 'site-stock'])(
    '"%s" is none of ours',
    (name) => {
      expect(readLogName(name)).toBeUndefined()
    },
  )
})
