import { describe, expect, it } from 'vitest'
import type { DayEvent } from '../../../src/core/day/dayEvents.ts'
import { dayList } from '../../../src/core/day/dayList.ts'
import { foldDays } from '../../../src/core/day/dayState.ts'
import { SKIN_PLACES } from '../../../src/core/order/collecting.ts'
import { inPlainWork } from '../../support/inPlainWork.ts'
import { dayEntries } from '../../support/sampleDay.ts'
import {
  MINUTE_ms,
  NOW_ms,
  RULES,
  draw,
  due,
  listOf,
  listed,
  order,
} from '../../support/sampleList.ts'

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

  it('waits with a stat order for a time until that time is near, and not with one that has an appointment', () => {
    const at = (kind: 'timed' | 'appointment', in_min: number) =>
      listOf(listed(order({ id: 's', priority: 'stat' }, due(kind, in_min)))).toDo[0]?.place.reason
    expect(at('timed', 120)).toBe('notYet')
    expect(at('timed', 19)).toBe('stat')
    expect(at('appointment', 120)).toBe('stat')
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
    expect(listOf(again).toDo[0]?.twice.map((each) => each.order.id)).toEqual(['b'])
    const kept: DayEvent = { type: 'ordersBothWanted', orderIds: ['a', 'b'] }
    expect(listOf([...again, kept]).toDo[0]?.twice).toEqual([])
  })

  it('that come again once they are drawn are told of with how they stand, so that nobody is drawn twice', () => {
    const again = listed(a, order({ ...other, number: 'O-a', tests: ['cbc'] }))
    const { toDo, done } = listOf(again, [draw()])
    expect(toDo.map((group) => group.ids)).toEqual([['b']])
    expect(toDo[0]?.twice).toMatchObject([{ order: { id: 'a' }, status: 'drawn', isOther: false }])
    expect(done[0]?.twice).toEqual([])
    const cancelled: DayEvent = { type: 'orderCancelled', orderIds: ['a'], by: 'x', why: 'y' }
    expect(listOf([...again, cancelled]).toDo[0]?.twice).toEqual([])
  })

  it('of two patients under one number are told of each other', () => {
    const { toDo } = listOf(listed(a, order({ id: 'c', person: 'Y', number: 'O-a' })))
    expect(toDo.map(({ twice }) => twice.map(({ isOther }) => isOther))).toEqual([[true], [true]])
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

it('four hundred orders are sorted in time', () => {
  const many = Array.from({ length: 400 }, (_, n) =>
    order({ id: `o${n}`, person: `P${Math.floor(n / 2)}`, tests: [n % 2 ? 'sodium' : 'cbc'] }),
  )
  const state = foldDays(dayEntries(listed(...many)))
  const taken = inPlainWork(() => expect(dayList(state, [], RULES, NOW_ms).toDo).toHaveLength(200))

  expect(taken).toBeLessThan(5)
})
