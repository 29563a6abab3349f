import { describe, expect, it } from 'vitest'
import { planDraw } from '../../src/core/plan/planDraw.ts'
import { planInput, SITE } from '../support/planning.ts'

/**
 * Parts of the panels that are rows themselves. Comprehensive and basic panel: battery members of a children's
 * hospital and of a commercial laboratory (nationwidechildrens.org comprehensive metabolic panel, clevelandheartlab.com
 * C901, excerpts), without glucose, whose row is the fluoride tube. Liver, renal and lipid
 * panel: common composition, no source.
 */
const BASIC = ['sodium', 'potassium', 'chloride', 'bicarbonate', 'urea', 'creatinine', 'calcium']
const PARTS: Readonly<Record<string, readonly string[]>> = {
  bmp: BASIC,
  cmp: [...BASIC, 'albumin', 'totalProtein', 'alp', 'alt', 'ast', 'bilirubinTotal'],
  liverPanel: ['albumin', 'totalProtein', 'alp', 'alt', 'ast', 'bilirubinTotal', 'bilirubinDirect'],
  renalPanel: [...BASIC, 'albumin', 'phosphate'],
  lipidPanel: ['cholesterol', 'hdl', 'triglycerides'],
}

const row = (code: string) => {
  const found = SITE.catalogue.tests.find((test) => test.code === code)
  if (!found) throw new Error(`no row ${code}`)
  return found
}

describe('a panel', () => {
  it.each(Object.entries(PARTS))('%s is at least as strict as each of its parts', (code, parts) => {
    const panel = row(code)
    for (const part of parts.map(row)) {
      expect(panel.handling, part.code).toEqual(expect.arrayContaining([...part.handling]))
      expect(panel.timeLimit_min ?? Infinity, part.code).toBeLessThanOrEqual(
        part.timeLimit_min ?? Infinity,
      )
      expect(panel.fasting || !part.fasting, part.code).toBe(true)
      const takes = part.accepts.map(({ additive }) => additive)
      for (const { additive } of panel.accepts) expect(takes, part.code).toContain(additive)
      expect(panel.least_mL, part.code).toBeGreaterThanOrEqual(part.least_mL)
    }
  })
})

describe('parathyroid hormone', () => {
  // Hanon 2013, CCLM, doi 10.1515/cclm-2013-0315: steady in EDTA blood for 24 h; clotted blood loses after 3 h.
  it('is a row for EDTA and one for serum, each with its own limit', () => {
    expect(row('pth').accepts.every(({ additive }) => additive.startsWith('edta'))).toBe(true)
    expect(row('pth').timeLimit_min).toBeLessThanOrEqual(24 * 60)
    expect(row('pthSerum').timeLimit_min).toBeLessThanOrEqual(3 * 60)
    const limits = planDraw(planInput(['pth', 'pthSerum'])).tubes.map((tube) => [
      tube.timeLimit_min,
      tube.timeLimitOf,
    ])
    expect(limits).toEqual([
      [60, 'pthSerum'],
      [1200, 'pth'],
    ])
  })
})

describe('rows with a limit of their own', () => {
  it.each([
    // Indiana health department laboratories: within 12 h at 17 to 25 C; the kit tubes 16 h (albanymed.org and others).
    ['igra', 720],
    ['igraNil', 960],
    // aruplab.com 0080388 and 0080380: frozen within an hour of collection.
    ['vitaminB1', 60],
    ['vitaminC', 60],
    // Ilardo 2023: no difference between 24 and 72 h; handbooks 48 to 72 h.
    ['flowCytometry', 2880],
  ])('%s ends after %d min', (code, limit_min) => {
    expect(row(code).timeLimit_min).toBe(limit_min)
  })

  it('cold, dark and airless stand where the pages ask for them', () => {
    expect(row('vitaminB1').handling).toEqual(['light', 'ice'])
    expect(row('vitaminC').handling).toEqual(expect.arrayContaining(['light', 'ice']))
    expect(row('ionizedCalcium').handling).toContain('noAir')
    expect(row('g6pd').handling).toContain('coolOptional')
  })
})
