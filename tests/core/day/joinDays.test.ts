import { describe, expect, it } from 'vitest'
import type { DayEvent } from '../../../src/core/day/dayEvents.ts'
import { foldDays } from '../../../src/core/day/dayState.ts'
import { joinDays } from '../../../src/core/day/joinDays.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'

const HOUR_ms = 3_600_000

/** As a device charts it whose clock is an hour fast. */
const anHourFast = (events: readonly DayEvent[]) =>
  dayEntries(events).map((entry) => ({
    ...entry,
    at: { ...entry.at, at_ms: entry.at.at_ms + HOUR_ms, wall_ms: entry.at.wall_ms + HOUR_ms },
  }))

describe('what two devices recorded, the clock of one an hour fast', () => {
  // Common practice, no source.
  it('an act at the bench that the other one takes back is taken back on both lists', () => {
    const fast = anHourFast([
      {
        type: 'benchActed',
        id: 'AA22-20261125-B1',
        act: { type: 'stored', where: 'room' },
        specimens: [{ drawId: 'AA22-20261125-0001', tubeIds: ['t1'] }],
      },
    ])
    const right = dayEntries([{ type: 'actTakenBack', act: 'AA22-20261125-B1' }])
    for (const [own, others] of [
      [fast, right],
      [right, fast],
    ] as const) {
      expect(foldDays(joinDays(own, others)).acts).toMatchObject([{ takenBack: true }])
    }
  })

  it('an order that the other one cancels stays so, though the call before it is later by the clock', () => {
    const order = sampleListed()
    const { id } = order
    const fast = anHourFast([{ type: 'orderCalled', orderIds: [id] }])
    const cancelled: DayEvent = { type: 'orderCancelled', orderIds: [id], by: 'ward', why: 'gone' }
    const right = dayEntries([{ type: 'orderListed', order }, cancelled])
    expect(foldDays(joinDays(right, fast)).items.get(id)?.standing).toBe('cancelled')
    // Until somebody takes it up again.
    const again = anHourFast([
      { type: 'orderCalled', orderIds: [id] },
      { type: 'orderReopened', orderIds: [id], why: 'is back' },
    ])
    expect(foldDays(joinDays(right, again)).items.get(id)?.standing).toBe('waiting')
  })

  it('what is said of an order counts, though it was listed later by the clock', () => {
    const order = sampleListed()
    const fast = anHourFast([{ type: 'orderListed', order }])
    const right = dayEntries([
      { type: 'orderCancelled', orderIds: [order.id], by: 'ward', why: 'gone home' },
    ])
    expect(foldDays(joinDays(right, fast)).items.get(order.id)?.standing).toBe('cancelled')
  })
})
