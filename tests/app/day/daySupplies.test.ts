import { describe, expect, it } from 'vitest'
import { daySupplies, drawsToSupply, needsOf } from '../../../src/app/day/daySupplies.ts'
import type { OrderStatus } from '../../../src/core/day/orderStatus.ts'
import type { DayRow } from '../../../src/app/view/dayViewTypes.ts'
import { dayRules } from '../../../src/app/day/dayRules.ts'
import { dayList } from '../../../src/core/day/dayList.ts'
import { foldDays } from '../../../src/core/day/dayState.ts'
import type { ListedOrder } from '../../../src/core/day/listedOrder.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'
import { shippedSite as site } from '../../support/site.ts'

const today = '2026-11-25'

function order(id: string, tests: readonly string[], change: Partial<ListedOrder> = {}) {
  return sampleListed({ id, order: { orderNumber: id, tests, priority: 'routine' }, ...change })
}

const other = { fullName: 'Bo Quill', familyName: 'Quill', givenNames: 'Bo' }
const BO = { patient: { ...other, birthDate: '1971-02-03', recordNumber: 'MRN-2' } }

function rowsOf(orders: readonly ListedOrder[], status?: OrderStatus): readonly DayRow[] {
  const state = foldDays(dayEntries(orders.map((each) => ({ type: 'orderListed', order: each }))))
  const { toDo } = dayList(state, [], dayRules(site.catalogue), SAMPLE_START_ms + 60_000)
  return toDo.map((found) => {
    const group = { ...found, status: status ?? found.status }
    return { kind: 'orders', place: group.place, group }
  })
}

function suppliesFor(
  orders: readonly ListedOrder[],
  { stock }: Pick<Parameters<typeof needsOf>[1], 'stock'> = { stock: site.stock },
) {
  const by = { site, stock, today }
  const { draws } = drawsToSupply(rowsOf(orders))
  return daySupplies(
    draws.map((draw) => ({ draw, needs: needsOf(draw, by) })),
    by,
  )
}

const tubes = (supplies: ReturnType<typeof suppliesFor>) =>
  supplies[0]?.tubes.reduce((sum, { needed }) => sum + needed, 0)

describe('the supplies of the day', () => {
  it('count two orders that share a draw as one draw', () => {
    const one = suppliesFor([order('a', ['cbc'])])
    const shared = suppliesFor([order('a', ['cbc']), order('b', ['hba1c'])])
    const two = suppliesFor([order('a', ['cbc']), order('b', ['cbc'], BO)])
    expect(one[0]).toMatchObject({ draws: 1, labels: { needed: 1 } })
    // Both tests are done in EDTA blood and fit one tube.
    expect(shared[0]).toMatchObject({ draws: 1, labels: { needed: 1 }, notCounted: 0 })
    expect(shared[0]?.sets).toMatchObject([{ needed: 1 }])
    expect(two[0]).toMatchObject({ draws: 2, labels: { needed: 2 } })
    expect(tubes(two)).toBe(2 * (tubes(one) ?? 0))
  })

  it('tell by number the orders that cannot be planned yet', () => {
    const open = { ...BO, questions: ['Which arm?'] }
    const [supplies] = suppliesFor([order('a', ['cbc']), order('b', ['cbc'], open)])
    expect(supplies).toMatchObject({ draws: 1, labels: { needed: 1 }, notCounted: 1 })
  })

  it('keep invented patients and their stock apart, and tell where nobody counts', () => {
    const orders = [order('a', ['cbc']), order('b', ['cbc'], { ...BO, invented: true })]
    const [real, invented, ...more] = suppliesFor(orders, { stock: undefined })
    expect(more).toEqual([])
    expect(real).toMatchObject({ invented: false, isCounted: false, draws: 1 })
    expect(real?.tubes[0]?.counted).toBeUndefined()
    expect(invented).toMatchObject({ invented: true, isCounted: true, draws: 1 })
    expect(invented?.tubes[0]?.counted?.onHand).toBe(40)
  })

  it('hold a draw under way, whose tubes are still in the stock, and tell what a draw lacks', () => {
    const orders = [order('a', ['cbc']), order('b', ['cbc'], BO)]
    expect(drawsToSupply(rowsOf(orders, 'inChair'))).toMatchObject({ leftOver: 0 })
    expect(drawsToSupply(rowsOf(orders, 'inChair')).draws).toHaveLength(2)
    expect(drawsToSupply(rowsOf(orders, 'partlyDrawn'))).toEqual({
      draws: [],
      sittings: 0,
      leftOver: 2,
    })
  })
})
