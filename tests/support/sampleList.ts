import type { DayEvent } from '../../src/core/day/dayEvents.ts'
import { dayList, type DayRules } from '../../src/core/day/dayList.ts'
import { foldDays } from '../../src/core/day/dayState.ts'
import type { ListedOrder } from '../../src/core/day/listedOrder.ts'
import type { OrderDraw } from '../../src/core/day/orderDraw.ts'
import { dayEntries, sampleListed } from './sampleDay.ts'
import { SAMPLE_START_ms } from './sampleLog.ts'

export const RULES: DayRules = {
  ownIdentity: new Set(['bloodGroup']),
  isSeries: (tests) => tests.includes('ogtt75'),
  isFasting: (tests) => tests.includes('glucoseFasting'),
}
export const MINUTE_ms = 60_000
export const NOW_ms = SAMPLE_START_ms + 60 * MINUTE_ms

interface Given {
  readonly id: string
  readonly person?: string
  readonly tests?: readonly string[]
  readonly priority?: ListedOrder['order']['priority']
  readonly number?: string
}

export function order(given: Given, change: Partial<ListedOrder> = {}): ListedOrder {
  const { id, person = id, tests = ['cbc'], priority = 'routine', number = `O-${id}` } = given
  return sampleListed({
    id,
    patient: { fullName: `Alex ${person}`, birthDate: '1980-05-31', recordNumber: `MRN-${person}` },
    order: { orderNumber: number, tests, priority },
    ...change,
  })
}

export const listed = (...orders: readonly ListedOrder[]): DayEvent[] =>
  orders.map((each) => ({ type: 'orderListed', order: each }))

export const listOf = (
  events: readonly DayEvent[],
  draws: readonly OrderDraw[] = [],
  now_ms = NOW_ms,
) => dayList(foldDays(dayEntries(events)), draws, RULES, now_ms)

export const due = (kind: 'timed' | 'appointment', in_min: number) => ({
  due: { kind, at_ms: NOW_ms + in_min * MINUTE_ms, tolerance_min: 5 },
})

export const draw = (change: Partial<OrderDraw> = {}): OrderDraw => ({
  drawId: 'D7-20261125-0001',
  orderIds: ['a'],
  opened_ms: NOW_ms - 10 * MINUTE_ms,
  closed_ms: NOW_ms - 5 * MINUTE_ms,
  tests: ['cbc'],
  testsOf: {},
  tubes: [{ tubeId: 't1', tests: ['cbc'], isSent: false, isReceived: false }],
  missing: [],
  isRefused: false,
  ...change,
})
