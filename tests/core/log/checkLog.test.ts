import { describe, expect, it } from 'vitest'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import type { DrawLog, LogEntry, UnsealedEntry } from '../../../src/core/protocol/entry.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import { sampleLog, sampleOpening, sha256, stampAt } from '../../support/sampleLog.ts'

const log = sampleLog()

function withEntries(change: (entries: LogEntry[]) => LogEntry[]): DrawLog {
  return { ...log, entries: change([...log.entries]) }
}

/** As a person would forge it who knows the format: everything sealed again. */
function resealed(change: (entries: UnsealedEntry[]) => UnsealedEntry[]): DrawLog {
  const bare = log.entries.map(({ previous: _p, hash: _h, ...rest }) => rest)
  return { ...log, entries: sealAll(change(bare), sha256) }
}

describe('checkLog', () => {
  it('passes a log as it was written', () => {
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
  })

  it('passes a log that came through JSON', () => {
    expect(checkLog(JSON.parse(JSON.stringify(log)), sha256)).toMatchObject({ ok: true })
  })

  it('names the entry whose content was changed', () => {
    const forged = withEntries((entries) =>
      entries.map((entry) => (entry.seq === 7 ? { ...entry, by: 'c9' } : entry)),
    )
    expect(checkLog(forged, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 7, kind: 'brokenHash' }],
    })
  })

  it('names the entry behind one that was changed and hashed anew', () => {
    const forged = withEntries((entries) => {
      const entry = { ...entries[6]!, by: 'c9' }
      const { hash: _hash, previous, ...bare } = entry
      entries[6] = sealAll([bare], sha256, previous)[0]!
      return entries
    })
    expect(checkLog(forged, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 8, kind: 'brokenHash' }],
    })
  })

  it('names the number that is missing', () => {
    const cut = withEntries((entries) => entries.filter(({ seq }) => seq !== 5))
    expect(checkLog(cut, sha256)).toMatchObject({ ok: false, faults: [{ seq: 5, kind: 'gap' }] })
  })

  it('names the first entry that is out of order', () => {
    const swapped = withEntries((entries) => {
      ;[entries[3], entries[4]] = [entries[4]!, entries[3]!]
      return entries
    })
    expect(checkLog(swapped, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 4, kind: 'outOfOrder' }],
    })
  })

  it('names an entry that stands twice', () => {
    const doubled = withEntries((entries) => entries.flatMap((e) => (e.seq === 6 ? [e, e] : [e])))
    expect(checkLog(doubled, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 7, kind: 'repeated' }],
    })
  })

  it('names the entry at which time runs backwards, however well it is sealed', () => {
    const back = resealed((entries) =>
      entries.map((e) => (e.seq === 9 ? { ...e, at: stampAt(3) } : e)),
    )
    expect(checkLog(back, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 9, kind: 'timeBackwards' }],
    })
  })

  it.each([
    ['an event of no known kind', { type: 'teaServed' }],
    ['an event without what it must carry', { type: 'tubeOn' }],
    ['a value that is not one of those allowed', { type: 'tubeOff', tubeId: 't1', fill: 'half' }],
    ['no event at all', null],
    ['an inherited property name as kind', { type: 'toString' }],
  ])('refuses %s', (_what, event) => {
    const odd = resealed((entries) =>
      entries.map((e) => (e.seq === 4 ? ({ ...e, event } as unknown as UnsealedEntry) : e)),
    )
    expect(checkLog(odd, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 4, kind: 'badEvent' }],
    })
  })

  it('lets a field through that a later addition brought', () => {
    const later = resealed((entries) =>
      entries.map((e) =>
        e.event.type === 'bandOn'
          ? ({ ...e, event: { ...e.event, pressure_kPa: 6 } } as UnsealedEntry)
          : e,
      ),
    )
    expect(checkLog(later, sha256)).toMatchObject({ ok: true })
  })

  it('refuses a log that opens twice, or not at all, or under another number', () => {
    const twice = resealed((entries) =>
      entries.map((e) => (e.seq === 3 ? { ...e, event: sampleOpening() } : e)),
    )
    expect(checkLog(twice, sha256)).toMatchObject({ ok: false, faults: [{ seq: 3 }] })
    const never = resealed((entries) =>
      entries.map((e) => (e.seq === 1 ? { ...e, event: { type: 'bandOn' } as const } : e)),
    )
    expect(checkLog(never, sha256)).toMatchObject({ ok: false, faults: [{ seq: 1 }] })
    expect(checkLog({ ...log, drawId: 'D7-20261125-0004' }, sha256)).toMatchObject({
      ok: false,
      faults: [{ seq: 1, kind: 'altered' }],
    })
  })

  it.each([
    ['nothing', undefined, 'foreign'],
    ['a text', 'log', 'foreign'],
    ['a list', [], 'foreign'],
    ['another format', { ...log, format: 'other-log' }, 'foreign'],
    ['no version', { ...log, version: undefined }, 'foreign'],
    ['a version that is no number', { ...log, version: '1' }, 'foreign'],
    ['a version to come', { ...log, version: 2 }, 'futureVersion'],
    ['entries that are no list', { ...log, entries: {} }, 'foreign'],
    ['entries that are no entries', { ...log, entries: [1, 2] }, 'foreign'],
    ['no entries', { ...log, entries: [] }, 'truncated'],
  ])('refuses %s', (_what, value, kind) => {
    expect(checkLog(value, sha256)).toMatchObject({ ok: false, faults: [{ kind }] })
  })

  it('changes nothing that it looks at', () => {
    const before = JSON.stringify(log)
    checkLog(log, sha256)
    expect(JSON.stringify(log)).toBe(before)
  })
})
