import { describe, expect, it } from 'vitest'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import type { RiskCode } from '../../../src/core/record/riskTable.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog, sampleOpening, type Line } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

type Change = Parameters<typeof sampleLog>[0]
const nameOf = (code: string): string => (code === 'test-citrate' ? 'Clotting time' : code)
const risks = (change: Change, code: RiskCode) =>
  specimenRisks(sampleLog(change), texts.record, undefined, nameOf).filter(
    (risk) => risk.code === code,
  )
const { preparation, needleSet } = sampleOpening()
const raised = (at_s: number, kind: 'brightBlood' | 'swelling'): Line => [
  at_s,
  { type: 'exceptionRaised', kind },
]

describe('the place of the puncture', () => {
  // Am J Clin Pathol 1988;90:702: while it runs the arm with the infusion differs from the other.
  it('was an arm with an infusion', () => {
    const infused = (arm: 'left' | 'right'): Change => ({
      opening: { preparation: { ...preparation, restrictions: { [arm]: 'infusion' } } },
    })
    expect(risks(infused('left'), 'infusionArm')).toMatchObject([{ tubeIds: ['t1', 't2', 't3'] }])
    expect(risks(infused('right'), 'infusionArm')).toEqual([])
  })

  it('was perhaps an artery, for the tubes of that needle alone', () => {
    const change: Change = {
      add: [
        raised(146, 'brightBlood'),
        [147, { type: 'needleOut' }],
        [147.5, { type: 'punctureBegun', number: 2 }],
        [148, { type: 'needleIn', attempt: 2 }],
      ],
    }
    expect(risks(change, 'artery')).toMatchObject([{ tubeIds: ['t1', 't2'] }])
  })

  it('swelled while blood was drawn; what swells under the pressure afterwards is told elsewhere', () => {
    expect(risks({ add: [raised(131, 'swelling')] }, 'swelling')).toMatchObject([
      { tubeIds: ['t1', 't2', 't3'] },
    ])
    expect(risks({ add: [raised(300, 'swelling')] }, 'swelling')).toEqual([])
  })

  it('was reached with a winged set and citrate first, and no discard tube before it', () => {
    const straight = { ...needleSet, kind: 'straight' } as const
    expect(risks({}, 'noDiscard')).toMatchObject([{ tubeIds: ['t1'] }])
    expect(risks({ opening: { needleSet: straight } }, 'noDiscard')).toEqual([])
    const plan = samplePlan([
      sampleTube('t0', 'citrate', { role: 'discard', tests: [] }),
      sampleTube('t1', 'citrate'),
      sampleTube('t2', 'activatorGel'),
      sampleTube('t3', 'edtaK2'),
    ])
    const discarded: Change = {
      opening: { plan },
      add: [
        [114.5, { type: 'tubeOn', tubeId: 't0' }],
        [116, { type: 'tubeOff', tubeId: 't0', fill: 'short' }],
      ],
    }
    expect(risks(discarded, 'noDiscard')).toEqual([])
  })
})

describe('ice, warmth and dark', () => {
  const change = (add: Line[] = []): Change => ({
    opening: { plan: samplePlan([sampleTube('t1', 'edtaK2', { handling: ['ice', 'light'] })]) },
    without: (event) => 'tubeId' in event && event.tubeId !== 't1',
    add,
  })
  const iced = (at_s: number): Line => [at_s, { type: 'tubeHandled', tubeId: 't1', how: 'ice' }]

  it('are told where no record says that they were done, once the draw is over', () => {
    expect(risks(change(), 'handledLate').map(({ found }) => found)).toEqual([
      'On ice: not in the record.',
      'Kept from light: not in the record.',
    ])
    const open: Change = { ...change(), without: (event) => event.type === 'drawClosed' }
    expect(risks(open, 'handledLate')).toEqual([])
  })

  it('are told with their minutes where they came late', () => {
    const dark: Line = [125, { type: 'tubeHandled', tubeId: 't1', how: 'light' }]
    // Off at 123 s.
    expect(risks(change([dark, iced(123 + 300)]), 'handledLate')).toEqual([])
    expect(risks(change([dark, iced(123 + 301)]), 'handledLate')).toMatchObject([
      { found: 'On ice 6 min after it came off.' },
    ])
  })
})

describe('the time limit of a tube', () => {
  const plan = samplePlan([
    sampleTube('t1', 'citrate', { timeLimit_min: 60, timeLimitOf: 'test-citrate' }),
    sampleTube('t2', 'activatorGel'),
    sampleTube('t3', 'edtaK2'),
  ])
  const spun = (at_s: number): Line => [at_s, { type: 'spinStarted', tubeIds: ['t1'] }]
  const took = (at_s: number): Line => [at_s, { type: 'courierTook' }]

  it('names the test, its limit and the time the tube had', () => {
    expect(risks({ opening: { plan }, add: [took(4000)] }, 'overTime')).toMatchObject([
      { tubeIds: ['t1'], found: 'Clotting time: limit 60 min, it had 65 min.' },
    ])
  })

  it('is kept by a spin in time, however late the courier', () => {
    expect(risks({ opening: { plan }, add: [spun(3000), took(9000)] }, 'overTime')).toEqual([])
    expect(risks({ opening: { plan }, add: [spun(4000), took(9000)] }, 'overTime')).toHaveLength(1)
  })

  it('cannot be told without a hand-over, which is said', () => {
    expect(risks({ opening: { plan } }, 'handOverOpen')).toMatchObject([
      { tubeIds: ['t1'], found: 'Clotting time has 60 min.' },
    ])
    expect(risks({}, 'handOverOpen')).toEqual([])
  })
})

describe('a culture bottle', () => {
  const plan = samplePlan([
    sampleTube('t1', 'cultureAerobic', { role: 'culture', nominal_mL: 10, least_mL: 8 }),
    sampleTube('t2', 'activatorGel'),
    sampleTube('t3', 'edtaK2'),
  ])
  const off = (fill: 'full' | 'short', estimate_mL?: number): Change => ({
    opening: { plan },
    without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
    add: [
      [
        123,
        {
          type: 'tubeOff',
          tubeId: 't1',
          fill,
          ...(estimate_mL === undefined ? {} : { estimate_mL }),
        },
      ],
    ],
  })

  it('said to be full has an assumed volume, which is no measured one in the bundle', () => {
    const log = sampleLog(off('full'))
    expect(recordNote(log, texts).text).toContain('10 mL by its mark, assumed and not measured')
    const [bottle, serum] = ofType(bundleOf(log), 'Specimen')
    expect(bottle?.collection.quantity).toBeUndefined()
    expect(bottle?.container[0]?.specimenQuantity).toBeUndefined()
    expect(serum?.collection.quantity?.value).toBe(5)
  })

  it('with a volume that somebody read has it, and below the least it is a risk of its own', () => {
    const [bottle] = ofType(bundleOf(sampleLog(off('short', 6))), 'Specimen')
    expect(bottle?.collection.quantity?.value).toBe(6)
    // Mermel and Maki 1993: 92 % found with 8.7 mL, 69 % with 2.7 mL.
    expect(risks(off('short', 6), 'shortCulture')).toMatchObject([
      { tubeIds: ['t1'], found: '6 mL; at least 8 mL is asked for.' },
    ])
    expect(risks(off('full'), 'shortCulture')).toEqual([])
  })
})
