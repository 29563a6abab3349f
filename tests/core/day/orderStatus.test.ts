import { describe, expect, it } from 'vitest'
import type { DayEvent } from '../../../src/core/day/dayEvents.ts'
import type { ListedOrder } from '../../../src/core/day/listedOrder.ts'
import type { OrderDraw } from '../../../src/core/day/orderDraw.ts'
import { recollectionOf } from '../../../src/core/day/recollection.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'
import { NOW_ms, draw, listOf, listed, order } from '../../support/sampleList.ts'

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
    const { drawId } = before
    const reopened: DayEvent = {
      ...{ type: 'orderReopened', orderIds: ['a'], why: 'more is wanted', after: [drawId] },
    } as const
    expect(listOf([...events, reopened], [before]).toDo[0]?.status).toBe('waiting')
    // The draw that is made then settles it again, by whichever clock it was made.
    const again = draw({ drawId: 'D7-2', opened_ms: before.opened_ms - 9_000_000 })
    expect(listOf([...events, reopened], [before, again]).done[0]?.status).toBe('drawn')
  })

  it('that was called by a clock that ran ahead is not drawn again once it is set back', () => {
    // The call stands an hour after the close, by the clock of that moment.
    const called: DayEvent = { type: 'orderCalled', orderIds: ['a'] }
    const early = { opened_ms: SAMPLE_START_ms - 3_600_000, closed_ms: SAMPLE_START_ms - 3_500_000 }
    const { toDo, done } = listOf([...events, called], [draw(early)])
    expect(toDo).toEqual([])
    expect(done[0]?.status).toBe('drawn')
    const reopened: DayEvent = { type: 'orderReopened', orderIds: ['a'], why: 'wrong' }
    expect(listOf([...events, called, reopened], [draw(early)]).done[0]?.status).toBe('drawn')
  })

  it('cancelled while the patient is in the chair says so there, and is not waiting after it', () => {
    const cancelled: DayEvent = {
      ...{ type: 'orderCancelled', orderIds: ['a'], by: 'Dr. Placeholder', why: 'wrong patient' },
    } as const
    const { closed_ms: _closed, ...open } = draw()
    const meanwhile = { standing: 'cancelled', by: 'Dr. Placeholder', why: 'wrong patient' }
    const [inChair] = listOf([...events, cancelled], [open]).toDo
    expect(inChair?.status).toBe('inChair')
    expect(inChair?.items[0]?.status.meanwhile).toMatchObject(meanwhile)
    // Blood that was taken all the same is told and not hidden behind the word.
    const [drawn] = listOf([...events, cancelled], [draw()]).done
    expect(drawn?.status).toBe('drawn')
    expect(drawn?.items[0]?.status.meanwhile).toMatchObject(meanwhile)
    const none = draw({ tubes: [], missing })
    expect(listOf([...events, cancelled], [none]).done[0]?.status).toBe('cancelled')
  })

  it('lacks a test that was added once its draw was open, and no test that was there before', () => {
    const changed: DayEvent = {
      type: 'orderChanged',
      order: order({ id: 'a', tests: ['cbc', 'sodium'] }),
    }
    const made = { opened_ms: SAMPLE_START_ms - 1000, closed_ms: NOW_ms }
    const { toDo } = listOf([...events, changed], [draw(made)])
    expect(toDo[0]?.status).toBe('partlyDrawn')
    expect(toDo[0]?.items[0]?.status.missing.map(({ test }) => test)).toEqual(['sodium'])
    expect(toDo[0] && recollectionOf(toDo[0])?.order.tests).toEqual(['sodium'])
    const later = draw({ opened_ms: NOW_ms, closed_ms: NOW_ms, tests: ['cbc', 'sodium'] })
    expect(listOf([...events, changed], [later]).done[0]?.status).toBe('drawn')
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
