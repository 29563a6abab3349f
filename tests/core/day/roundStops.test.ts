import { describe, expect, it } from 'vitest'
import { dayList } from '../../../src/core/day/dayList.ts'
import { foldDays } from '../../../src/core/day/dayState.ts'
import type { ListedOrder } from '../../../src/core/day/listedOrder.ts'
import { roundStop, sittingStop, type SittingToVisit } from '../../../src/core/day/roundStops.ts'
import { dayEntries, sampleListed } from '../../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../../support/sampleLog.ts'

const RULES = { ownIdentity: new Set<string>(), isSeries: () => false, isFasting: () => false }
const WARD = { kind: 'ward', text: '3 East, bed 12' } as const

function stopOf(change: Partial<ListedOrder>) {
  const state = foldDays(dayEntries([{ type: 'orderListed', order: sampleListed(change) }]))
  const [group] = dayList(state, [], RULES, SAMPLE_START_ms).toDo
  return group && roundStop(group)
}

describe('a stop of the round', () => {
  it('is an order at a bedside or at home, and none of the room or without a place', () => {
    expect(stopOf({ place: WARD })).toMatchObject({ place: WARD, orderNumbers: ['O-1'] })
    expect(stopOf({ place: { kind: 'room', text: '4' } })).toBeUndefined()
    expect(stopOf({})).toBeUndefined()
  })

  it('is a further sample of a series too, with its time point and where its order said', () => {
    const sitting: SittingToVisit = {
      ...{ key: 's 2', invented: false, point: '1 h', tests: ['glucose'], orderNumber: 'O-1' },
      patient: sampleListed().patient,
      where: WARD,
      due_ms: SAMPLE_START_ms,
      tolerance_min: 5,
    }
    expect(sittingStop(sitting)).toMatchObject({
      place: WARD,
      point: '1 h',
      due: { at_ms: SAMPLE_START_ms, tolerance_min: 5 },
    })
    const { where: _where, ...nowhere } = sitting
    expect(sittingStop(nowhere)).toBeUndefined()
  })
})
