import { describe, expect, it } from 'vitest'
import { sealAll } from '../../../src/core/log/seal.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { clockTime } from '../../../src/core/time/format.ts'
import { stampAfter, type Stamp } from '../../../src/core/time/stamp.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { valueOf, writeSample } from '../../support/readNote.ts'
import { logOf, sampleLog, sha256, stampAt, straightLines } from '../../support/sampleLog.ts'

describe('times in the note', () => {
  const note = writeSample()

  it('takes every time from the log and from nowhere else', () => {
    const charted = new Set(
      sampleLog().entries.map(({ at }) =>
        new Date(at.at_ms + 3_600_000).toISOString().slice(11, 19),
      ),
    )
    const told = note.text.match(/\b\d\d:\d\d:\d\d\b/g) ?? []
    expect(told.length).toBeGreaterThan(20)
    expect(told.filter((time) => !charted.has(time))).toEqual([])
  })

  it('tells the length of the tourniquet and by how much it was over', () => {
    expect(valueOf(note, 'Tourniquet')).toBe('on 09:01:40, off 09:02:23, 0:43')
    const over = writeSample({
      without: ({ type }) => type === 'bandOff',
      add: [[168.2, { type: 'bandOff' }]],
    })
    expect(valueOf(over, 'Tourniquet')).toBe('on 09:01:40, off 09:02:48, 1:08, OVER 1:00 by 0:09')
  })

  it('gives the date and the offset where they are not those of the beginning', () => {
    const late = logOf(straightLines(), Date.UTC(2026, 10, 25, 22, 58, 0))
    expect(valueOf(writeNote(late, noteTemplate), 'Needle out')).toBe('00:00:50 on 26 Nov 2026')
    const { entries } = sampleLog()
    const shifted = entries.map(({ previous: _p, hash: _h, ...e }) =>
      e.seq > 20 ? { ...e, at: { ...e.at, offset_min: 120 } } : e,
    )
    const summer = { ...sampleLog(), entries: sealAll(shifted, sha256) }
    expect(valueOf(writeNote(summer, noteTemplate), 'Bandage')).toBe('10:05:12 (UTC+02:00)')
  })

  it('puts right what was written while the clock stood wrong, and says by how much', () => {
    const right = sampleLog().entries
    const second = right.findIndex(({ at }) => at.at_ms >= stampAt(100).at_ms)
    let last: Stamp | undefined
    const written = right.map(({ previous: _p, hash: _h, ...e }, index) => {
      // The clock stands an hour ahead for one entry; from then on the log's own times cannot go back.
      const wall_ms = e.at.wall_ms + (index === second ? 3_600_000 : 0)
      last = stampAfter(last, { ...e.at, wall_ms })
      return { ...e, at: last }
    })
    const log = { ...sampleLog(), entries: sealAll(written, sha256) }
    expect(log.entries.at(-1)?.at.at_ms).toBeGreaterThan((right.at(-1)?.at.at_ms ?? 0) + 3_500_000)
    const told = writeNote(log, noteTemplate)
    const same = [...note.text.matchAll(/\b\d\d:\d\d:\d\d\b/g)].map(([time]) => time)
    expect(told.text).toContain('corrected by -1:00:00')
    const line = /Times written as .*/.exec(told.text)?.[0] ?? ''
    const times = [...told.text.replace(line, '').matchAll(/\b\d\d:\d\d:\d\d\b/g)]
    expect(times.map(([time]) => time).filter((time) => !same.includes(time))).toEqual([
      // The heading of that one line tells the time as it was written.
      clockTime(log.entries[second]?.at ?? stampAt(0)),
    ])
  })

  it('says that a length is uncertain when the clock was set meanwhile', () => {
    const { entries } = sampleLog()
    const stepped = entries.map(({ previous: _p, hash: _h, ...e }) => {
      const jump_ms = e.at.at_ms >= stampAt(130).at_ms ? 60_000 : 0
      return { ...e, at: { ...e.at, at_ms: e.at.at_ms + jump_ms, wall_ms: e.at.wall_ms + jump_ms } }
    })
    const log = { ...sampleLog(), entries: sealAll(stepped, sha256) }
    expect(valueOf(writeNote(log, noteTemplate), 'Tourniquet')).toBe(
      'on 09:01:40, off 09:03:23, 0:43 to 1:43, the clock is not certain, OVER 1:00 by 0:43',
    )
  })
})
