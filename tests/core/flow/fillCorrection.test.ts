import { describe, expect, it } from 'vitest'
import { correctionOf, type FillCorrection } from '../../../src/core/flow/fillCorrection.ts'
import { readSetKey, setKey, setOfKey } from '../../../src/core/flow/setKey.ts'
import { USUAL_SETS } from '../../../src/core/order/usualSets.ts'
import { planDraw } from '../../../src/core/plan/planDraw.ts'
import { correctionFor, fillFits } from '../../../src/core/figures/fillFit.ts'
import type { FillMeasure } from '../../../src/core/figures/fillMeasures.ts'
import { drawMeasures } from '../../../src/core/figures/drawMeasures.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'
import { scenarioSite } from '../../support/scenarioSite.ts'

const set = scenarioSite.demo.needleSet
const corrected = (factor: number, of = set): FillCorrection => ({
  set: setKey(of),
  factor,
  by: 'R. Example',
  at_ms: 0,
  tubes: 40,
})

const windowsOf = (fillCorrections?: readonly FillCorrection[]) => {
  const { demo, catalogue, stock, bloodLimits, policy, texts: words } = scenarioSite
  const plan = planDraw({
    ...demo,
    order: { ...demo.order, tests: ['cbc'] },
    catalogue,
    stock,
    bloodLimits,
    policy,
    texts: words,
    today: '2026-11-25',
    fillCorrections,
  })
  return plan.tubes.map(({ fill }) => fill)
}

describe('a correction of the predicted filling', () => {
  it('makes every window of its set longer by its factor, and no other’s', () => {
    const [plain] = windowsOf()
    const [longer] = windowsOf([corrected(1.5)])
    if (!plain || !longer) throw new Error('no tube')
    for (const key of ['early_s', 'expected_s', 'late_s'] as const)
      expect(longer[key] / plain[key]).toBeCloseTo(1.5, 1)
    expect(windowsOf([corrected(1.5, USUAL_SETS.winged25)])[0]).toEqual(plain)
  })

  it('of one set twice is the later one, and one that cannot be is none', () => {
    expect(correctionOf([corrected(1.2), corrected(1.4)], set)).toBe(1.4)
    expect(correctionOf([corrected(0), corrected(-3), corrected(99)], set)).toBe(1)
    expect(correctionOf(undefined, set)).toBe(1)
  })

  it('names its set by what decides the flow', () => {
    for (const each of Object.values(USUAL_SETS)) {
      const { syringe_mL: _syringe, ...bare } = { syringe_mL: undefined, ...each }
      const key = setKey(each)
      expect(setKey(setOfKey(key))).toBe(key)
      expect(readSetKey(key)).toMatchObject({ kind: each.kind, gauge: each.gauge })
      expect(setKey({ ...bare, syringe_mL: 10 })).toBe(key)
    }
    expect(setKey({ ...set, wall: 'thin' })).not.toBe(setKey({ ...set, wall: 'regular' }))
  })

  it('stands in the note of every draw that was predicted with it, with who accepted it', () => {
    const opening = sampleOpening()
    const log = sampleLog({ opening: { fillCorrections: [corrected(1.17, opening.needleSet)] } })
    const note = recordNote(log, texts).text
    expect(note).toMatch(
      /predicted filling time, 21 G winged set.*40 tubes.*R\. Example.*: 1\.17 instead of 1/,
    )
    expect(recordNote(sampleLog(), texts).text).not.toContain('predicted filling time') // prettier-ignore
  })

  it('is taken off again where times are held against the uncorrected prediction', () => {
    const opening = sampleOpening()
    const [fill] = drawMeasures(
      sampleLog({ opening: { fillCorrections: [corrected(1.5, opening.needleSet)] } }),
      texts.record,
    ).fills
    expect(fill?.expected_s).toBe(6)
    expect(fill?.plain_s).toBeCloseTo(4, 9)
  })
})

describe('whether there is reason to correct', () => {
  const fits = (ratios: readonly number[]) =>
    fillFits(
      ratios.map((ratio): FillMeasure => ({
        set: setKey(set),
        gauge: 21,
        nominal_mL: 4,
        took_s: 10 * ratio,
        expected_s: 10,
        plain_s: 10,
        where: 'within',
      })),
    )
  const around = (middle: number, n: number) =>
    Array.from({ length: n }, (_, i) => middle + ((i % 5) - 2) / 50)
  const offer = (ratios: readonly number[], inForce = 1) => {
    const [fit] = fits(ratios)
    return fit && correctionFor(fit, inForce)
  }

  it('there is where the middle of many is surely elsewhere', () => {
    expect(offer(around(1.3, 40))).toBeCloseTo(1.3, 2)
  })

  it('there is none of few tubes, where 1 may be true, or where that factor is in force', () => {
    expect(offer(around(1.3, 19))).toBeUndefined()
    expect(offer(around(1, 40))).toBeUndefined()
    expect(offer(around(1.3, 40), 1.3)).toBeUndefined()
  })

  it('there is none where it is so far off that it is not the set that was measured', () => {
    expect(offer(around(3, 40))).toBeUndefined()
    expect(offer(around(0.3, 40))).toBeUndefined()
  })
})
