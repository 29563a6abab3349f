import { describe, expect, it } from 'vitest'
import { fixedZone, zoneAround, zonedTime_ms, type OffsetAt } from '../../../src/core/time/zone.ts'

/** Offsets of the IANA time zone database, as this machine's ICU has them. */
function ianaOffsetAt(timeZone: string): OffsetAt {
  const format = new Intl.DateTimeFormat('en-US', {
    ...{ timeZone, hourCycle: 'h23' },
    ...{ year: 'numeric', month: 'numeric', day: 'numeric' },
    ...{ hour: 'numeric', minute: 'numeric' },
  })
  return (at_ms) => {
    const part = new Map(
      format.formatToParts(at_ms).map(({ type, value }) => [type, Number(value)]),
    )
    const of = (type: Intl.DateTimeFormatPartTypes): number => part.get(type) ?? NaN
    const local = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'))
    return (local - Math.floor(at_ms / 60_000) * 60_000) / 60_000
  }
}

const at = (text: string): number => Date.parse(text)

describe('local time of the year in which clocks are set', () => {
  // IANA time zone database: central Europe changes at 01:00 UTC on 2026-03-29 and 2026-10-25.
  const zone = zoneAround(ianaOffsetAt('Europe/Berlin'), at('2026-01-15T12:00:00Z'))

  it('has its changes to the minute', () => {
    expect(zone.map(({ offset_min }) => offset_min)).toEqual([60, 120, 60])
    expect(zone.slice(1).map(({ from_ms }) => from_ms)).toEqual([
      at('2026-03-29T01:00:00Z'),
      at('2026-10-25T01:00:00Z'),
    ])
  })

  it.each([
    ['2026-03-28T08:00', '2026-03-28T07:00:00Z'],
    ['2026-03-29T01:59', '2026-03-29T00:59:00Z'],
    ['2026-03-29T03:00', '2026-03-29T01:00:00Z'],
    ['2026-03-29T08:00', '2026-03-29T06:00:00Z'],
    ['2026-10-25T01:30', '2026-10-24T23:30:00Z'],
    ['2026-10-25T03:00', '2026-10-25T02:00:00Z'],
    ['2026-10-25T08:00', '2026-10-25T07:00:00Z'],
  ])('%s is %s', (local, utc) => {
    expect(zonedTime_ms(local, zone)).toBe(at(utc))
  })

  // RFC 5545, section 3.3.5, and its own examples, of New York in 2007.
  it('a time that comes twice is the first, one that never comes counts from before the change', () => {
    expect(zonedTime_ms('2026-10-25T02:30', zone)).toBe(at('2026-10-25T00:30:00Z'))
    expect(zonedTime_ms('2026-03-29T02:30', zone)).toBe(at('2026-03-29T01:30:00Z'))
    const york = zoneAround(ianaOffsetAt('America/New_York'), at('2007-01-15T12:00:00Z'))
    expect(zonedTime_ms('2007-11-04T01:30', york)).toBe(at('2007-11-04T01:30:00-04:00'))
    expect(zonedTime_ms('2007-03-11T02:30', york)).toBe(at('2007-03-11T03:30:00-04:00'))
  })
})

// Every local hour that exists is found again by the offset that holds at what was found.
it.each([
  'Europe/Dublin',
  'America/St_Johns',
  'Australia/Lord_Howe',
  'Pacific/Chatham',
  'Asia/Kolkata',
])('whole hours of a year in %s are where the time zone database has them', (name) => {
  const offsetAt = ianaOffsetAt(name)
  const zone = zoneAround(offsetAt, at('2026-01-01T00:00:00Z'))
  let wrong = 0
  for (let hour = 24; hour < 360 * 24; hour++) {
    const local_ms = at('2026-01-01T00:00:00Z') + hour * 3_600_000
    const text = new Date(local_ms).toISOString().slice(0, 16)
    const found = zonedTime_ms(text, zone) ?? NaN
    const back_ms = found + offsetAt(found) * 60_000
    // Of the hours that clocks leave out none can be found again.
    if (
      back_ms !== local_ms &&
      back_ms - local_ms !== 1_800_000 &&
      back_ms - local_ms !== 3_600_000
    )
      wrong++
  }
  expect(wrong).toBe(0)
})

it('takes nothing for a time that is none, and local time that never changes as it is', () => {
  expect(zonedTime_ms('2026-02-30T08:00', fixedZone(60))).toBeUndefined()
  expect(zonedTime_ms('8:00', fixedZone(60))).toBeUndefined()
  expect(zonedTime_ms('2026-11-25T08:00', fixedZone(-300))).toBe(at('2026-11-25T13:00:00Z'))
})
