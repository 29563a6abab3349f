import { describe, expect, it } from 'vitest'
import {
  calendarDate,
  clockTime,
  dayMonthYear,
  isoLocal,
  minutesSeconds,
} from '../../../src/core/time/format.ts'
import {
  clockStep_ms,
  elapsed,
  stampAfter,
  type Reading,
  type Stamp,
} from '../../../src/core/time/stamp.ts'

const NINE = Date.UTC(2026, 10, 25, 8, 0, 0)
const at = (wall_s: number, mono_s: number, boot = 'a', offset_min = 60): Reading => ({
  wall_ms: NINE + wall_s * 1000,
  mono_ms: mono_s * 1000,
  boot,
  offset_min,
})
/** Stamps one reading after another and gives the charted seconds since nine. */
const charted = (...readings: readonly Reading[]): readonly number[] => {
  let last: Stamp | undefined
  return readings.map((reading) => {
    last = stampAfter(last, reading)
    return (last.at_ms - NINE) / 1000
  })
}

describe('charted time', () => {
  it('follows the wall clock while that runs forward', () => {
    expect(charted(at(0, 0), at(10, 10), at(10.4, 10.4))).toEqual([0, 10, 10.4])
  })

  it('goes on by the page clock for as long as a wall clock set back stays behind', () => {
    expect(charted(at(0, 0), at(-3590, 10), at(-3580, 20), at(-3500, 100))).toEqual([
      0, 10, 20, 100,
    ])
  })

  it('follows the wall clock again once that has caught up', () => {
    expect(charted(at(0, 0), at(-5, 10), at(45, 20))).toEqual([0, 10, 45])
  })

  it('jumps with a wall clock set forward, and does not come back with it', () => {
    expect(charted(at(0, 0), at(3610, 10), at(20, 20))).toEqual([0, 3610, 3620])
  })

  it('spans a reload by the wall clock, and stands still rather than run backwards', () => {
    expect(charted(at(0, 500), at(30, 1, 'b'))).toEqual([0, 30])
    expect(charted(at(0, 500), at(-60, 1, 'b'), at(-50, 11, 'b'))).toEqual([0, 0, 10])
  })

  it('does not mind summer time or midnight: only the written hour changes', () => {
    // Europe/Berlin, 2026-10-25 03:00 back to 02:00: the offset falls from 120 to 60 minutes.
    const before: Reading = {
      wall_ms: Date.UTC(2026, 9, 25, 0, 59, 50),
      mono_ms: 0,
      boot: 'a',
      offset_min: 120,
    }
    const after: Reading = {
      wall_ms: before.wall_ms + 20_000,
      mono_ms: 20_000,
      boot: 'a',
      offset_min: 60,
    }
    const first = stampAfter(undefined, before)
    const second = stampAfter(first, after)
    expect(second.at_ms - first.at_ms).toBe(20_000)
    expect(isoLocal(first)).toBe('2026-10-25T02:59:50+02:00')
    expect(isoLocal(second)).toBe('2026-10-25T02:00:10+01:00')
    expect(elapsed(before, after)).toEqual({ least_ms: 20_000, most_ms: 20_000 })
    const late = stampAfter(undefined, {
      wall_ms: Date.UTC(2026, 11, 31, 22, 59, 58),
      mono_ms: 0,
      boot: 'a',
      offset_min: 60,
    })
    const early = stampAfter(late, { ...late, wall_ms: late.wall_ms + 4000, mono_ms: 4000 })
    expect([calendarDate(late), clockTime(late)]).toEqual(['2026-12-31', '23:59:58'])
    expect([calendarDate(early), clockTime(early)]).toEqual(['2027-01-01', '00:00:02'])
  })
})

describe('time passed', () => {
  it('is the same at least and at most while both clocks agree', () => {
    expect(elapsed(at(0, 0), at(40, 40))).toEqual({ least_ms: 40_000, most_ms: 40_000 })
  })

  it('allows for a sleep: at most what the wall clock says, at least what the page counted', () => {
    expect(elapsed(at(0, 0), at(120, 5))).toEqual({ least_ms: 5000, most_ms: 120_000 })
    expect(clockStep_ms(at(0, 0), at(120, 5))).toBe(115_000)
  })

  it('is not shortened by a wall clock set back', () => {
    expect(elapsed(at(0, 0), at(-3560, 40))).toEqual({ least_ms: 40_000, most_ms: 40_000 })
  })

  it('spans a reload by the wall clock', () => {
    expect(elapsed(at(0, 500), at(25, 1, 'b'))).toEqual({ least_ms: 25_000, most_ms: 25_000 })
  })

  it('is unknown when the wall clock was set back over a reload: nothing at least, without end at most', () => {
    expect(elapsed(at(0, 500), at(-10, 1, 'b'))).toEqual({ least_ms: 0, most_ms: Infinity })
  })
})

describe('a date for eyes', () => {
  it.each([
    ['1987-03-14', '14 Mar 1987'],
    ['2004-12-01', '1 Dec 2004'],
    ['1980-01-31', '31 Jan 1980'],
    ['', ''],
    ['31.12.1980', '31.12.1980'],
    ['1980-13-01', '1980-13-01'],
  ])('%s is "%s"', (date, text) => {
    expect(dayMonthYear(date)).toBe(text)
  })
})

describe('times in words', () => {
  it.each([
    [0, '0:00'],
    [7_900, '0:07'],
    [95_000, '1:35'],
    [3_725_000, '1:02:05'],
    [-5, '0:00'],
    [Infinity, '-:--'],
  ])('%d ms is %s', (ms, text) => {
    expect(minutesSeconds(ms)).toBe(text)
  })

  it.each([
    [0, '2026-11-25T08:00:00Z'],
    [-210, '2026-11-25T04:30:00-03:30'],
    [345, '2026-11-25T13:45:00+05:45'],
  ])('an offset of %d min', (offset_min, text) => {
    expect(isoLocal({ at_ms: NINE, offset_min })).toBe(text)
  })
})
