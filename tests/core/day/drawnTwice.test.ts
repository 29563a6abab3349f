import { expect, it } from 'vitest'
import { drawnTwice } from '../../../src/core/day/drawnTwice.ts'
import type { ListedItem } from '../../../src/core/day/dayState.ts'
import type { OrderDraw } from '../../../src/core/day/orderDraw.ts'

const item = (id: string, after: readonly string[] = []): ListedItem =>
  ({ order: { id }, after }) as unknown as ListedItem
const draw = (drawId: string, change: Partial<OrderDraw> = {}): OrderDraw => ({
  ...{ drawId, orderIds: ['o1'], opened_ms: 1, closed_ms: 9, tests: [], testsOf: {}, missing: [] },
  ...{ tubes: [{ tubeId: '1', tests: ['cbc'], isSent: false, isReceived: false }] },
  ...{ isRefused: false, ...change },
})
const twice = (items: readonly ListedItem[], draws: readonly OrderDraw[]) =>
  drawnTwice(items, draws).map(({ order, drawIds }) => [order.id, ...drawIds])

it('tells an order that two devices drew, the earlier one first', () => {
  const draws = [draw('B1', { opened_ms: 5 }), draw('A1')]
  expect(twice([item('o1'), item('o2')], draws)).toEqual([['o1', 'A1', 'B1']])
})

it('tells it while one or both go on', () => {
  const open = { closed_ms: undefined, tubes: [] } as unknown as Partial<OrderDraw>
  expect(twice([item('o1')], [draw('A1'), draw('B1', open)])).toHaveLength(1)
  expect(twice([item('o1')], [draw('A1', open), draw('B1', open)])).toHaveLength(1)
})

it('tells nothing of one draw, of one that gave no blood, and of one after which it was taken up again', () => {
  expect(twice([item('o1')], [draw('A1')])).toEqual([])
  expect(twice([item('o1')], [draw('A1'), draw('B1', { tubes: [] })])).toEqual([])
  expect(twice([item('o1', ['A1'])], [draw('A1'), draw('B1')])).toEqual([])
  expect(twice([item('o1')], [draw('A1'), draw('B1', { orderIds: ['o2'] })])).toEqual([])
})
