import { describe, expect, it } from 'vitest'
import type { DayEvent } from '../../../src/core/day/dayEvents.ts'
import { dayList, type DayRules } from '../../../src/core/day/dayList.ts'
import { foldDays } from '../../../src/core/day/dayState.ts'
import type { ListedOrder } from '../../../src/core/day/listedOrder.ts'
import type { OrderDraw } from '../../../src/core/day/orderDraw.ts'
import { SKIN_PLACES } from '../../../src/core/order/collecting.ts'
import { recollectionOf } from '../../../src/core/day/recollection.ts'
import { cpuTime_ms } from '../../support/cpuTime.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'

const RULES: DayRules = {
  ownIdentity: new Set(['bloodGroup']),
  isSeries: (tests) => tests.includes('ogtt75'),
  isFasting: (tests) => tests.includes('glucoseFasting'),
}
const MINUTE_ms = 60_000
const NOW_ms = SAMPLE_START_ms + 60 * MINUTE_ms

interface Given {
  readonly id: string
  readonly person?: string
  readonly tests?: readonly string[]
  readonly priority?: ListedOrder['order']['priority']
  readonly number?: string
}

function order(given: Given, change: Partial<ListedOrder> = {}): ListedOrder {
  const { id, person = id, tests = ['cbc'], priority = 'routine', number = `O-${id}` } = given
  return sampleListed({
    id,
    patient: { fullName: `Alex ${person}`, birthDate: '1980-05-31', recordNumber: `MRN-${person}` },
    order: { orderNumber: number, tests, priority },
    ...change,
  })
}

const listed = (...orders: readonly ListedOrder[]): DayEvent[] =>
  orders.map((each) => ({ type: 'orderListed', order: each }))

const listOf = (events: readonly DayEvent[], draws: readonly OrderDraw[] = [], now_ms = NOW_ms) =>
  dayList(foldDays(dayEntries(events)), draws, RULES, now_ms)

const due = (kind: 'timed' | 'appointment', in_min: number) => ({
  due: { kind, at_ms: NOW_ms + in_min * MINUTE_ms, tolerance_min: 5 },
})

const draw = (change: Partial<OrderDraw> = {}): OrderDraw => ({
  drawId: 'D7-20261125-0001',
  orderIds: ['a'],
  opened_ms: NOW_ms - 10 * MINUTE_ms,
  closed_ms: NOW_ms - 5 * MINUTE_ms,
  testsOf: {},
  tubes: [{ tubeId: 't1', tests: ['cbc'], isSent: false, isReceived: false }],
  missing: [],
  isRefused: false,
  ...change,
})

describe('what must happen first', () => {
  it('is stat, then timed and due, fasting, appointment, priority and arrival; the rest waits below', () => {
    const { toDo } = listOf(
      listed(
        order({ id: 'early' }),
        order({ id: 'late' }),
        order({ id: 'later' }, due('timed', 120)),
        order({ id: 'urgent', priority: 'urgent' }),
        order({ id: 'appointment' }, due('appointment', 10)),
        order({ id: 'fasting', tests: ['glucoseFasting'] }),
        order({ id: 'timed' }, due('timed', 3)),
        order({ id: 'over' }, due('timed', -9)),
        order({ id: 'stat', priority: 'stat' }),
      ),
    )
    expect(toDo.map(({ ids, place }) => [ids[0], place.reason])).toEqual([
      ['stat', 'stat'],
      ['over', 'timedLate'],
      ['timed', 'timedNow'],
      ['fasting', 'fasting'],
      ['appointment', 'appointment'],
      ['urgent', 'urgent'],
      ['early', 'routine'],
      ['late', 'routine'],
      ['later', 'notYet'],
    ])
  })

  it('has who was called above, and who was put off below until that time', () => {
    const events: readonly DayEvent[] = [
      ...listed(order({ id: 'a' }), order({ id: 'b' }), order({ id: 'c', priority: 'stat' })),
      { type: 'orderCalled', orderIds: ['b'] },
      { type: 'orderPutOff', orderIds: ['c'], until_ms: NOW_ms + MINUTE_ms, why: 'eats first' },
    ]
    expect(listOf(events).toDo.map(({ ids }) => ids[0])).toEqual(['b', 'a', 'c'])
    const later = listOf(events, [], NOW_ms + 2 * MINUTE_ms)
    expect(later.toDo.map(({ ids, status }) => [ids[0], status])).toEqual([
      ['b', 'called'],
      ['c', 'waiting'],
      ['a', 'waiting'],
    ])
  })
})

describe('orders of one patient', () => {
  const a = order({ id: 'a', person: 'X' })
  const other = { id: 'b', person: 'X', tests: ['sodium'] } as const
  const ids = (events: readonly DayEvent[]) => listOf(events).toDo.map((group) => group.ids)

  it('share a draw, until somebody says that they do not, and again when somebody says so', () => {
    const both = listed(a, order(other))
    expect(ids(both)).toEqual([['a', 'b']])
    const apart: DayEvent = { type: 'ordersApart', orderIds: ['a', 'b'] }
    expect(ids([...both, apart])).toEqual([['a'], ['b']])
    expect(listOf([...both, apart]).toDo[0]?.apart.map(({ why }) => why)).toEqual(['said'])
    const again: DayEvent = { type: 'ordersTogether', orderIds: ['b', 'a'] }
    expect(ids([...both, apart, again])).toEqual([['a', 'b']])
  })

  it.each([
    ['timed', order(other, due('timed', 0))],
    ['series', order({ ...other, tests: ['ogtt75'] })],
    ['sameTest', order({ ...other, tests: ['cbc'] })],
    ['otherInvented', order(other, { invented: true })],
    ['otherPlace', order(other, { place: { kind: 'home', text: 'Elm Row 1' } })],
    ['otherWay', order(other, { collecting: SKIN_PLACES[0] })],
    ['recollection', order(other, { recollects: { drawId: 'd', tubeIds: [], reason: 'QS' } })],
  ] as const)('are kept apart, and why is said: %s', (reason, second) => {
    const first = { ...a, place: { kind: 'room', text: '4' } as const }
    const { toDo } = listOf(listed(first, second))
    expect(toDo.map((group) => group.ids.length)).toEqual([1, 1])
    const told = toDo.find((group) => group.ids[0] === 'a')
    expect(told?.apart.map(({ why }) => why)).toEqual([reason])
  })

  it('with a blood group each have a sample and an identity check of their own', () => {
    const first = order({ id: 'a', person: 'X', tests: ['bloodGroup'] })
    const { toDo } = listOf(listed(first, order({ ...other, tests: ['bloodGroup'] })))
    expect(toDo[0]?.apart).toMatchObject([{ why: 'ownIdentity' }])
  })

  it('are one patient only where number, birth date and name are all the same', () => {
    const twin = { ...order(other), patient: { ...a.patient, birthDate: '1980-06-01' } }
    const { toDo } = listOf(listed(a, twin))
    expect(toDo).toHaveLength(2)
    expect(toDo[0]?.alike).toMatchObject([{ likeness: 'sameNumber' }])
  })

  it('that are listed twice are asked about, until somebody says that both are wanted', () => {
    const again = listed(a, order({ ...other, number: 'O-a', tests: ['cbc'] }))
    expect(listOf(again).toDo[0]?.twice.map(({ id }) => id)).toEqual(['b'])
    const kept: DayEvent = { type: 'ordersBothWanted', orderIds: ['a', 'b'] }
    expect(listOf([...again, kept]).toDo[0]?.twice).toEqual([])
  })

  it('and another of the same family name and first letter are told of each other', () => {
    const near = { fullName: 'Alexis Quill', birthDate: '1990-01-01', recordNumber: 'MRN-9' }
    const one = { fullName: 'Alex Quill', birthDate: '1980-05-31', recordNumber: 'MRN-8' }
    const { toDo } = listOf(
      listed({ ...a, patient: one }, { ...order({ id: 'n' }), patient: near }, order({ id: 'f' })),
    )
    expect(toDo.map(({ alike }) => alike.map(({ likeness }) => likeness))).toEqual([
      ['likeName'],
      ['likeName'],
      [],
    ])
  })
})

describe('the status of an order', () => {
  const events = listed(order({ id: 'a', tests: ['cbc'] }))
  const tube = { tubeId: 't1', tests: ['cbc'], isSent: true, isReceived: false }
  const missing = [{ test: 'cbc', why: 'noBlood' } as const]

  it.each([
    ['drawn', {}],
    ['sent', { tubes: [tube] }],
    ['received', { tubes: [{ ...tube, isReceived: true }] }],
    ['rejected', { tubes: [{ ...tube, rejected: { reason: 'RH' } as const }] }],
    ['partlyDrawn', { missing }],
    ['notDrawn', { tubes: [], missing }],
    ['refused', { tubes: [], missing, isRefused: true }],
    ['notFound', { tubes: [], missing, reason: 'absent' }],
    ['cancelled', { tubes: [], missing, reason: 'cancelled' }],
  ] as const)('is %s by its draw', (status, change) => {
    const { toDo, done } = listOf(events, [draw(change)])
    expect([...toDo, ...done].map((group) => group.status)).toEqual([status])
  })

  it('is in the chair while its draw is open, whatever else is said', () => {
    const { closed_ms: _closed, ...open } = draw()
    const { toDo } = listOf([...events, { type: 'orderNotFound', orderIds: ['a'] }], [open])
    expect(toDo[0]?.status).toBe('inChair')
  })

  it('is that of the later draw, and of what was said after it', () => {
    const later = draw({ drawId: 'D7-2', opened_ms: NOW_ms - 1000, closed_ms: NOW_ms - 500 })
    const list = listOf(events, [later, draw({ tubes: [], missing })])
    expect(list.done[0]?.status).toBe('drawn')
    const before = draw({ opened_ms: SAMPLE_START_ms - 2000, closed_ms: SAMPLE_START_ms - 1000 })
    const reopened: DayEvent = { type: 'orderReopened', orderIds: ['a'], why: 'more is wanted' }
    expect(listOf([...events, reopened], [before]).toDo[0]?.status).toBe('waiting')
  })

  it('never goes back to waiting because the record of its draw was erased', () => {
    const erased: DayEvent = { type: 'recordErased', drawId: 'D7-1', orderIds: ['a'] }
    expect(listOf([...events, erased]).done[0]?.status).toBe('erased')
  })

  it('of two that shared a draw is each its own', () => {
    const shared = listed(
      order({ id: 'a', person: 'X', tests: ['cbc'] }),
      order({ id: 'b', person: 'X', tests: ['sodium'] }),
    )
    const both = draw({
      orderIds: ['a', 'b'],
      testsOf: { a: ['cbc'], b: ['sodium'] },
      missing: [{ test: 'sodium', why: 'noBlood' }],
    })
    const { toDo, done } = listOf(shared, [both])
    expect(done.map(({ ids }) => ids)).toEqual([['a']])
    expect(toDo.map(({ ids, status }) => [ids, status])).toEqual([[['b'], 'notDrawn']])
  })
})

describe('a recollection', () => {
  const events = listed(order({ id: 'a', tests: ['cbc', 'sodium'] }))
  const sent = { isSent: true, isReceived: true }
  const rejected = draw({
    tubes: [
      { tubeId: 't1', tests: ['cbc'], ...sent },
      { tubeId: 't2', tests: ['sodium'], ...sent, rejected: { reason: 'RH', note: 'grossly' } },
    ],
  })
  const againAfter = (made: OrderDraw): ListedOrder => {
    const [group] = listOf(events, [made]).toDo
    const again = group && recollectionOf(group)
    if (!again) throw new Error('There is nothing to recollect.')
    return again
  }

  it('has the tests of what was rejected alone, and says what it makes good', () => {
    expect(againAfter(rejected)).toMatchObject({
      id: 'R-D7-20261125-0001-t2',
      order: { orderNumber: 'O-a', tests: ['sodium'] },
      recollects: { drawId: 'D7-20261125-0001', tubeIds: ['t2'], reason: 'RH', note: 'grossly' },
    })
  })

  it('once listed settles the order, which stays rejected', () => {
    const again = againAfter(rejected)
    const list = listOf([...events, ...listed(again)], [rejected])
    expect(list.toDo.map(({ ids }) => ids)).toEqual([[again.id]])
    expect(list.done.map(({ ids, status }) => [ids, status])).toEqual([[['a'], 'rejected']])
  })

  it('of what was not drawn has the missing tests', () => {
    const again = againAfter(draw({ missing: [{ test: 'sodium', why: 'tubeLost' }] }))
    expect(again.order.tests).toEqual(['sodium'])
    expect(again.recollects?.tubeIds).toEqual([])
  })
})

it('four hundred orders are sorted in time', () => {
  const many = Array.from({ length: 400 }, (_, n) =>
    order({ id: `o${n}`, person: `P${Math.floor(n / 2)}`, tests: [n % 2 ? 'sodium' : 'cbc'] }),
  )
  const state = foldDays(dayEntries(listed(...many)))
  const times_ms = Array.from({ length: 5 }, () =>
    cpuTime_ms(() => expect(dayList(state, [], RULES, NOW_ms).toDo).toHaveLength(200)),
  )
  // Of the processor's own time, so that a busy machine fails no test.
  expect(Math.min(...times_ms)).toBeLessThan(100)
})
