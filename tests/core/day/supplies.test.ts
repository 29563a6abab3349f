import { describe, expect, it } from 'vitest'
import { drawNeeds, suppliesOf, type DrawNeeds } from '../../../src/core/day/supplies.ts'
import { planInput, WINGED } from '../../support/planning.ts'
import { shippedSite } from '../../support/site.ts'

const { catalogue } = shippedSite
const TODAY = '2026-11-25'
const lot = (tubeCode: string, count: number, expires = '2028-01-01', name = expires) => ({
  tubeCode,
  lot: `INVENTED-${name}`,
  expires,
  count,
})
const draw = (codes: readonly string[], change: Partial<DrawNeeds> = {}): DrawNeeds => ({
  tubes: codes.map((tubeCode) => ({ tubeCode, role: 'specimen' })),
  sets: [{ kind: 'straight', gauge: 21 }],
  isStopped: false,
  ...change,
})

// Figures counted by hand from the draws and lots of each case.
describe('the supplies of the list', () => {
  it('adds up tubes by code, sets by kind and gauge, and a label for each specimen but no discard', () => {
    const supplies = suppliesOf(
      [
        draw(['edta4', 'gel5']),
        draw(['edta4'], { sets: [{ kind: 'winged', gauge: 23 }] }),
        {
          ...draw([], { sets: [{ kind: 'winged', gauge: 21 }] }),
          tubes: [
            { tubeCode: 'plain4', role: 'discard' },
            { tubeCode: 'cultureAerobic10', role: 'culture' },
          ],
        },
        draw(['edta4']),
      ],
      undefined,
      TODAY,
    )
    expect(supplies).toEqual({
      tubes: [
        { tubeCode: 'cultureAerobic10', needed: 1 },
        { tubeCode: 'edta4', needed: 3 },
        { tubeCode: 'gel5', needed: 1 },
        { tubeCode: 'plain4', needed: 1 },
      ],
      sets: [
        { kind: 'winged', gauge: 21, needed: 1 },
        { kind: 'winged', gauge: 23, needed: 1 },
        { kind: 'straight', gauge: 21, needed: 2 },
      ],
      labels: { needed: 5 },
    })
  })

  it('adds up several lots, leaves the expired out, and tells what is short', () => {
    const stock = [
      lot('edta4', 1),
      lot('edta4', 1, '2027-01-01'),
      lot('edta4', 9, '2026-11-24'),
      lot('gel5', 4),
    ]
    const { tubes } = suppliesOf([draw(['edta4', 'edta4', 'edta4', 'gel5'])], stock, TODAY)
    expect(tubes).toEqual([
      {
        tubeCode: 'edta4',
        needed: 3,
        counted: { onHand: 2, shortBy: 1, expiring: 0, expired: 9 },
      },
      {
        tubeCode: 'gel5',
        needed: 1,
        counted: { onHand: 4, shortBy: 0, expiring: 0, expired: 0 },
      },
    ])
  })

  it('uses a tube through its last day, and tells what expires within seven days, also unneeded', () => {
    const stock = [
      lot('edta4', 2, '2026-12-02'),
      lot('edta4', 3, '2026-11-25'),
      lot('edta4', 7, '2026-12-03'),
      lot('gel5', 1, '2026-12-01'),
      lot('plain4', 5),
      lot('plain6', 0, '2026-11-26'),
    ]
    const { tubes } = suppliesOf([draw(['edta4'])], stock, TODAY)
    expect(tubes).toEqual([
      {
        tubeCode: 'edta4',
        needed: 1,
        counted: { onHand: 12, shortBy: 0, expiring: 5, firstExpiry: '2026-11-25', expired: 0 },
      },
      {
        tubeCode: 'gel5',
        needed: 0,
        counted: { onHand: 1, shortBy: 0, expiring: 1, firstExpiry: '2026-12-01', expired: 0 },
      },
    ])
  })

  it('is short of all where nothing of a counted stock is there', () => {
    const { tubes } = suppliesOf([draw(['edta4'])], [], TODAY)
    expect(tubes[0]?.counted).toMatchObject({ onHand: 0, shortBy: 1 })
  })
})

describe('the needs of one draw', () => {
  const codes = (needs: DrawNeeds | undefined) => needs?.tubes.map(({ tubeCode }) => tubeCode)

  it('are those of its plan: one tube and one set for a blood count', () => {
    const needs = drawNeeds(planInput(['cbc'], { needleSet: WINGED }))
    expect(needs?.tubes.map(({ role }) => role)).toEqual(['specimen'])
    expect(needs?.sets).toMatchObject([{ kind: 'winged', gauge: 21 }])
    expect(needs?.isStopped).toBe(false)
  })

  it('name the tube that the stock has no more of, so that it is told as short', () => {
    const full = codes(drawNeeds({ ...planInput(['cbc']), stock: undefined }))
    const needs = drawNeeds({ ...planInput(['cbc']), stock: [] })
    expect(full).toHaveLength(1)
    expect(codes(needs)).toEqual(full)
    const [row] = suppliesOf(needs ? [needs] : [], [], TODAY).tubes
    expect(row?.counted?.shortBy).toBe(1)
  })

  it('hold a set for each draw of a series, and none where drops are collected', () => {
    expect(drawNeeds(planInput(['ogtt75']))?.sets.length).toBeGreaterThan(1)
    expect(drawNeeds(planInput(['cbc'], { collecting: 'capillaryFinger' }))?.sets).toEqual([])
  })

  it('are not known of a plan without a tube', () => {
    expect(drawNeeds(planInput(['noSuchTest']))).toBeUndefined()
  })

  // Counted by hand: three sets of 23 gauge and four labels are wanted.
  it('holds sets and labels against a stock that counts them, and tells of those that expire unused', () => {
    const three = [1, 2, 3].map(() => draw(['edta4'], { sets: [{ kind: 'winged', gauge: 23 }] }))
    const { sets, labels, tubes } = suppliesOf(
      [...three, draw(['edta4'])],
      [
        lot('edta4', 9),
        lot('winged23', 2),
        lot('winged23', 5, '2026-11-24'),
        lot('straight22', 4, '2026-11-26'),
        lot('straight23', 4),
        lot('label', 300, '2099-12-31'),
      ],
      TODAY,
    )
    expect(tubes.map(({ tubeCode }) => tubeCode)).toEqual(['edta4'])
    expect(sets).toEqual([
      {
        ...{ kind: 'winged', gauge: 23, needed: 3 },
        counted: { onHand: 2, shortBy: 1, expiring: 0, expired: 5 },
      },
      {
        ...{ kind: 'straight', gauge: 21, needed: 1 },
        counted: { onHand: 0, shortBy: 1, expiring: 0, expired: 0 },
      },
      {
        ...{ kind: 'straight', gauge: 22, needed: 0 },
        counted: { onHand: 4, shortBy: 0, expiring: 4, firstExpiry: '2026-11-26', expired: 0 },
      },
    ])
    expect(labels).toEqual({
      needed: 4,
      counted: { onHand: 300, shortBy: 0, expiring: 0, expired: 0 },
    })
  })

  it('says nothing of sets and labels where the stock counts tubes alone, and takes a tube of that name for a tube', () => {
    const { sets, labels } = suppliesOf([draw(['edta4'])], [lot('edta4', 9)], TODAY)
    expect(sets).toEqual([{ kind: 'straight', gauge: 21, needed: 1 }])
    expect(labels).toEqual({ needed: 1 })
    const [label] = catalogue.tubes.map((tube) => ({ ...tube, code: 'label' }))
    const own = suppliesOf([draw(['label'])], [lot('label', 9)], TODAY, label ? [label] : [])
    expect(own.tubes).toMatchObject([{ tubeCode: 'label', counted: { onHand: 9 } }])
    expect(own.labels).toEqual({ needed: 1 })
  })
})
