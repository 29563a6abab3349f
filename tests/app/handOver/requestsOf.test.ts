import { describe, expect, it } from 'vitest'
import { requestsOf } from '../../../src/app/handOver/requestsOf.ts'
import type { DayItem } from '../../../src/core/day/dayList.ts'

const SERVER = 'https://fhir.example/r4'

/** @param listed_ms when it was put on the list */
const item = (
  id: string,
  requests: readonly (readonly [number: string, test?: string])[],
  {
    followedBy,
    tests = [],
    listed_ms = 0,
  }: { followedBy?: string; tests?: readonly string[]; listed_ms?: number } = {},
): DayItem =>
  ({
    order: {
      ...{ id, order: { tests } },
      requests: requests.map(([number, test]) => ({
        url: `${SERVER}/ServiceRequest/${number}`,
        ...(test !== undefined && { test }),
      })),
    },
    item: { listed: { at_ms: listed_ms } },
    ...(followedBy !== undefined && { followedBy }),
  }) as unknown as DayItem

const told = (listed: readonly string[], items: readonly DayItem[]) =>
  Object.fromEntries(requestsOf(listed, items, SERVER))

// Common practice, no source: what was asked for is answered where it was asked.
describe('the requests that a draw answers', () => {
  it('are those of its orders, by test, and of no other', () => {
    const items = [item('a', [['1', 'cbc'], ['2', 'bmp']]), item('b', [['3', 'tsh']])] // prettier-ignore
    expect(told(['a'], items)).toEqual({ cbc: 'ServiceRequest/1', bmp: 'ServiceRequest/2' })
    expect(told([], items)).toEqual({})
  })

  it('are those of the first order, for what was listed again after it', () => {
    const items = [
      item(
        'a',
        [
          ['1', 'cbc'],
          ['2', 'bmp'],
        ],
        { followedBy: 'b' },
      ),
      item('b', [], { followedBy: 'c', tests: ['cbc', 'bmp'] }),
      item('c', [], { tests: ['cbc'] }),
    ]
    expect(told(['c'], items)).toEqual({ cbc: 'ServiceRequest/1' })
    expect(told(['b'], items)).toEqual({ cbc: 'ServiceRequest/1', bmp: 'ServiceRequest/2' })
  })

  it('are of the order that was listed first, where two ask for one test', () => {
    const items = [item('b', [['2', 'cbc']], { listed_ms: 9 }), item('a', [['1', 'cbc']])]
    expect(told(['a', 'b'], items)).toEqual({ cbc: 'ServiceRequest/1' })
  })

  it('are none where it is not sure which test they ask for, or another server has them', () => {
    expect(told(['a'], [item('a', [['1']])])).toEqual({})
    const elsewhere = requestsOf(['a'], [item('a', [['1', 'cbc']])], 'https://fhir.example/r')
    expect([...elsewhere]).toEqual([])
  })
})
