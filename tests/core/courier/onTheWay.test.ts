import { describe, expect, it } from 'vitest'
import { dropOffs } from '../../../src/core/courier/dropOffs.ts'
import { onTheWay, wayMinutes } from '../../../src/core/courier/onTheWay.ts'
import { LABORATORIES, sampleSpecimens } from '../../support/samplePack.ts'
import { shippedSite } from '../../support/site.ts'

const SITE = { laboratories: LABORATORIES, catalogue: shippedSite.catalogue }
const ALL = sampleSpecimens()
const drawn_ms = ALL[1]?.collected.at_ms ?? NaN
const MINUTE_ms = 60_000

const carried = (min: number, way_min: number | undefined, specimens = ALL) =>
  onTheWay(specimens, [], SITE, drawn_ms + min * MINUTE_ms, way_min)

// Lengths of the limits are the sample's own; that the shortest is delivered first is common practice, no source.
describe('what a person carries', () => {
  it('has what is due first above, each with how it travels', () => {
    expect(carried(0, undefined).map(({ specimen, pack }) => [specimen.tubeId, pack.carriedAt, pack.dark])).toEqual([
      ['t2', 'cold', false],
      ['t1', 'room', false],
      ['t3', 'cold', true],
    ]) // prettier-ignore
  })

  it('is late when the way is longer than what is left, and passed when nothing is left', () => {
    const lactate = (min: number, way_min?: number) => {
      const [first] = carried(min, way_min)
      return [first?.passed.map(({ test }) => test), first?.late.map(({ test }) => test)]
    }
    expect(lactate(5)).toEqual([[], []])
    expect(lactate(5, 10)).toEqual([[], []])
    expect(lactate(5, 11)).toEqual([[], ['lactate']])
    expect(lactate(16, 0)).toEqual([['lactate'], []])
  })

  it('goes by the limits of the bench where the bench has the tube', () => {
    const [, , serum] = ALL
    if (!serum) throw new Error('Three tubes were drawn.')
    const limits = [{ at_ms: drawn_ms + 120 * MINUTE_ms, of: 'separate', isOver: false }] as const
    const row = { specimen: serum, limits } as unknown as Parameters<typeof onTheWay>[1][number]
    const found = onTheWay(ALL, [row], SITE, drawn_ms, 121)
    expect(found.map(({ specimen }) => specimen.tubeId)).toEqual(['t2', 't3', 't1'])
    expect(found[1]?.late.map(({ of }) => of)).toEqual(['separate'])
  })

  it('is no practice and nothing that has left', () => {
    const practice = sampleSpecimens('D7-20261125-0009', [], true)
    const gone = sampleSpecimens('D7-20261125-0010', [
      [400, { type: 'droppedOff', tubeIds: ['t1', 't2', 't3'], to: 'Front desk' }],
    ])
    expect(carried(0, 5, [...practice, ...gone])).toEqual([])
  })

  it.each([
    ['0', 0],
    [' 45 ', 45],
    ['1440', 1440],
    ['1441', undefined],
    ['', undefined],
    ['1.5', undefined],
    ['-5', undefined],
    ['1e3', undefined],
  ])('reads %j as %s minutes', (typed, min) => expect(wayMinutes(typed)).toBe(min))
})

describe('what was dropped off', () => {
  it('is one by each act, the latest first, and without an act one of each draw', () => {
    const drop = (drawId: string, second: number, to: string) =>
      sampleSpecimens(drawId, [[second, { type: 'droppedOff', tubeIds: ['t1', 't2'], to }]])
    const [a, b, c] = ['D7-20261125-0003', 'D7-20261125-0004', 'D7-20261125-0005'] as const
    const specimens = [...drop(a, 400, 'Desk'), ...drop(b, 400, 'Desk'), ...drop(c, 500, 'Box')]
    const acts = [
      { id: 'act', act: { type: 'droppedOff' }, specimens: [a, b].map((drawId) => ({ drawId, tubeIds: ['t1', 't2'] })) },
      { id: 'other', act: { type: 'bagged' }, specimens: [{ drawId: c, tubeIds: ['t1', 't2'] }] },
    ] // prettier-ignore
    const found = dropOffs(specimens, acts)
    expect(found.map(({ act, to, specimens: each }) => [act, to, each.length])).toEqual([
      [undefined, 'Box', 2],
      ['act', 'Desk', 4],
    ])
  })
})
