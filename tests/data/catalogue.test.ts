import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { createFindings } from '../../src/app/order/findings.ts'
import { createTestFinder } from '../../src/app/order/testFinder.ts'
import { DRAW_GROUP } from '../../src/core/catalogue/orderOfDraw.ts'
import {
  findTest,
  findTube,
  type TestRow,
  type TubeRow,
} from '../../src/core/catalogue/catalogue.ts'
import { norm } from '../../src/core/catalogue/norms.ts'
import { specimenYield } from '../../src/core/plan/specimenYield.ts'
import { texts } from '../../src/data/en/texts.ts'
import { SITE } from '../support/planning.ts'

const { tests, tubes, norms } = SITE.catalogue
const row = (code: string): TestRow => findTest(SITE.catalogue, code)!
const tube = (code: string): TubeRow => findTube(SITE.catalogue, code)!
const additives = (code: string): string[] => row(code).accepts.map(({ additive }) => additive)
const GEL = /Gel$/

describe('what the shipped catalog rests on', () => {
  it('every row names its source', () => {
    for (const { code, source } of [...tests, ...tubes]) expect(source, code).toMatch(/\w{3}/)
  })

  it('fewer than 15 tests rest on common practice alone', () => {
    const bare = tests.filter(({ source }) => source.includes('common practice'))
    expect(bare.length).toBeLessThan(15)
    // The rest name a page, a paper, a guideline, another row, or say that a part is from memory.
    const named =
      /\.(?:com|org|edu|gov|us|uk|be|au|ca|sg|net|kr|info|blog|jo|qa|eg)\b|doi|\d{4};|CLSI|Lippi/
    for (const { code, source } of tests) {
      if (!source.includes('common practice')) expect(source, code).toMatch(named)
    }
  })

  it('holds the everyday tests and the tubes of an outside review', () => {
    expect(tests.length).toBeGreaterThanOrEqual(170)
    expect(tubes.length).toBeGreaterThanOrEqual(55)
  })
})

describe('volumes', () => {
  // Public least volumes, mL of serum: southwestlab.com basic panel 0.5; avera comprehensive panel 0.5;
  // peacehealthlabs.org 116 bicarbonate 0.5.
  it.each([
    ['bmp', 0.5],
    ['cmp', 0.5],
    ['bicarbonate', 0.5],
  ])('%s alone comes to the public least of %d mL with what its tube loses', (code, least_mL) => {
    const share = specimenYield('serum', norm(norms, 'bloodViscosityHaematocrit_pct'), norms)
    for (const name of ['gel35', 'gel5', 'activator4', 'heparinGel3']) {
      const sum_mL = row(code).least_mL + tube(name).dead_mL * share
      expect(sum_mL, name).toBeGreaterThanOrEqual(least_mL)
    }
  })

  it('a test with its least volume fits a tube that takes it, after what the tube loses', () => {
    for (const { code, least_mL, accepts } of tests) {
      const fits = tubes.some(({ additive, nominal_mL, dead_mL }) => {
        const need = accepts.find((n) => n.additive === additive)
        return need && least_mL / specimenYield(need.kind, 45, norms) <= nominal_mL - dead_mL + 1e-9
      })
      expect(fits, code).toBe(true)
    }
  })

  it('group, crossmatch and direct antiglobulin share one 6 mL sample at their least', () => {
    const shared = ['bloodGroup', 'crossmatch', 'dat'].map(row)
    expect(new Set(shared.map(({ sharing }) => sharing))).toEqual(new Set(['transfusion']))
    const blood_mL = shared.reduce((sum, { least_mL }) => sum + least_mL / 0.9, 0)
    expect(blood_mL).toBeLessThan(tube('edta6').nominal_mL - tube('edta6').dead_mL)
    expect(row('bloodGroupSecond').sharing).toBe('alone')
  })

  // What a blood bank groups, screens and matches on (list from memory); a label for any of them says so.
  it('marks the tests whose tube goes to transfusion, and no others', () => {
    const marked = tests.flatMap(({ code, transfusion }) => (transfusion ? [code] : []))
    expect(new Set(marked)).toEqual(
      new Set(['bloodGroup', 'bloodGroupSecond', 'crossmatch', 'dat']),
    )
  })
})

describe('tubes', () => {
  it('a count tube is short under 67 % (Lippi 2023, Diagnosis, doi 10.1515/dx-2023-0064)', () => {
    for (const code of ['edta1', 'edta2', 'edta3', 'edta4', 'edta6', 'edta10', 'edtaK3x3']) {
      expect(tube(code).leastFill_pct, code).toBe(67)
    }
  })

  it('citrate is short under 90 % (CLSI H21 6th ed. 2024, as quoted)', () => {
    for (const { additive, code, leastFill_pct } of tubes) {
      if (additive === 'citrate') expect(leastFill_pct, code).toBe(90)
    }
  })

  it('a culture bottle is filled to a mark, an adult one with 8 mL or more (hospital procedures)', () => {
    for (const { code, kind, fillsBy, additive, nominal_mL, leastFill_pct } of tubes) {
      if (!additive.startsWith('culture')) continue
      expect([kind, fillsBy], code).toEqual(['bottle', 'mark'])
      if (nominal_mL === 10) expect(nominal_mL * leastFill_pct, code).toBe(800)
    }
  })

  it('what is filled by hand does not fill by vacuum, and what is evacuated does', () => {
    for (const { code, kind, fillsBy } of tubes) {
      expect(fillsBy, code).toBe(kind === 'evacuated' ? 'vacuum' : 'mark')
    }
  })

  it('has small tubes for EDTA, heparin, gel and fluoride (0.25 to 1 mL, a public medical vocabulary)', () => {
    const micro = tubes.filter(({ kind }) => kind === 'micro')
    expect(new Set(micro.map(({ additive }) => DRAW_GROUP[additive]))).toEqual(
      new Set(['serum', 'heparin', 'EDTA', 'fluoride']),
    )
    for (const { code, nominal_mL } of micro) {
      expect(nominal_mL, code).toBeGreaterThanOrEqual(0.25)
      expect(nominal_mL, code).toBeLessThanOrEqual(1)
    }
  })
})

describe('rows that an outside review found wrong', () => {
  it.each(['ammonia', 'acth', 'homocysteine', 'renin', 'bnp', 'pth', 'hivViralLoad'])(
    '%s never meets gel',
    (code) => {
      expect(additives(code).filter((name) => GEL.test(name) && name.startsWith('edta'))).toEqual(
        [],
      )
    },
  )

  it('serology prefers serum, and EDTA only without gel', () => {
    for (const code of [
      'hbsAg',
      'hcvAb',
      'hivAgAb',
      'syphilisAb',
      'rubellaIgG',
      'hbsAb',
      'hbcAb',
    ]) {
      expect(row(code).accepts[0]?.kind, code).toBe('serum')
      expect(additives(code), code).not.toContain('edtaK2Gel')
    }
  })

  it('PTH prefers EDTA (Hanon 2013, CCLM, doi 10.1515/cclm-2013-0315)', () => {
    expect(additives('pth')[0]).toBe('edtaK2')
  })

  it('lithium is never drawn into lithium', () => {
    expect(additives('lithium').filter((name) => name.includes('Lithium'))).toEqual([])
  })

  it.each([
    ['cbc', 1440],
    ['cbcDiff', 720],
    ['esr', 240],
    ['pt', 1440],
    ['aptt', 240],
    ['fibrinogen', 480],
    ['dDimer', 240],
    ['ammonia', 15],
    ['lactate', 15],
    ['hivViralLoad', 1440],
    ['hcvRna', 360],
    ['pth', 1200],
    ['ionizedCalcium', 30],
    ['malariaFilm', 60],
  ])('%s as drawn ends after %d min, the strictest page that was read', (code, limit_min) => {
    expect(row(code).timeLimit_min).toBe(limit_min)
  })

  it('lipids ask for no fast (EAS and EFLM 2016), cryoglobulins, insulin and vitamin A do', () => {
    for (const code of ['lipidPanel', 'cholesterol', 'hdl', 'triglycerides']) {
      expect(row(code).fasting, code).toBe(false)
    }
    for (const code of ['cryoglobulins', 'insulin', 'vitaminA', 'glucoseFasting']) {
      expect(row(code).fasting, code).toBe(true)
    }
  })

  it('glucose may be iced and lactate must be; ethanol wants skin without alcohol', () => {
    expect(row('glucose').handling).toEqual(['coolOptional'])
    expect(row('lactate').handling).toEqual(['ice'])
    expect(row('ethanol').handling).toEqual(['noAlcohol'])
    expect(row('cryoglobulins').handling).toEqual(['warm'])
  })

  it('drug levels and tolerance tests say when to draw', () => {
    const timed = ['digoxin', 'phenytoin', 'vancomycin', 'lithium', 'gentamicin', 'tacrolimus']
    for (const code of [...timed, 'glucose75g2h', 'glucose50g1h', 'methotrexate']) {
      expect(row(code).timing, code).toMatch(/\w/)
    }
  })

  it('samples of a tolerance test never share a tube', () => {
    for (const { code, sharing } of tests) {
      if (/^glucose\d/.test(code)) expect(sharing, code).toBe('alone')
    }
  })
})

describe('LOINC codes', () => {
  /** Check digit mod 10 as in the LOINC users' guide, the same as that of Luhn. */
  const checkDigit = (digits: string): number => {
    const sum = [...digits].reverse().reduce((total, digit, place) => {
      const value = Number(digit) * (place % 2 === 0 ? 2 : 1)
      return total + (value > 9 ? value - 9 : value)
    }, 0)
    return (10 - (sum % 10)) % 10
  }

  it('the reckoning agrees with codes that labs print (2951-2, 2160-0, 33935-8, 89579-7)', () => {
    expect(['2951', '2160', '33935', '89579'].map(checkDigit)).toEqual([2, 0, 8, 7])
    expect(checkDigit('2915')).not.toBe(2)
  })

  it('every code of a shipped row has its check digit and stands once', () => {
    const codes = tests.flatMap(({ loinc }) => loinc ?? [])
    expect(codes.length).toBe(30)
    const told = readFileSync('src/data/catalogue/README.md', 'utf8')
    expect(told).toContain(`${codes.length} of the ${tests.length} tests carry a LOINC code`)
    expect(told).toContain(`${tests.length - codes.length} have none`)
    expect(new Set(codes).size).toBe(codes.length)
    for (const loinc of codes) {
      const [digits = '', check] = loinc.split('-')
      expect(`${digits}-${checkDigit(digits)}`, loinc).toBe(`${digits}-${check}`)
    }
  })

  // As printed beside the test on public laboratory pages: clinicaldiagnosticlab.com basic panel (sodium, potassium,
  // chloride), ltd.aruplab.com 3002030 (CK), asantelab.testcatalog.org LAB875 (sirolimus).
  it.each([
    ['sodium', '2951-2'],
    ['potassium', '2823-3'],
    ['chloride', '2075-0'],
    ['ck', '2157-6'],
    ['sirolimus', '29247-4'],
    // As the examples of FHIR R4 4.0.1 name them (package hl7.fhir.r4.examples): Bundle-72ac8493 (protein, GGT, LDH,
    // HDL), Bundle-ghp (metabolic panel), Bundle-101 (count), ServiceRequest-ft4, Observation-f206 (culture),
    // Observation-bgpanel, and its expansion of LOINC (digoxin, lutropin, CA 125, HCV RNA, direct antiglobulin test).
    ['totalProtein', '2885-2'],
    ['ggt', '2324-2'],
    ['ldh', '2532-0'],
    ['cmp', '24323-8'],
    ['cbc', '58410-2'],
    ['digoxin', '10535-3'],
    ['lh', '10501-5'],
    ['ca125', '10334-1'],
    ['hcvRna', '10676-5'],
    ['freeT4', '3024-7'],
    ['bloodCultureChild', '600-7'],
    ['bloodGroup', '34532-2'],
    ['dat', '1007-4'],
    ['hdl', '2085-9'],
    ['ldlDirect', '18262-6'],
  ])('%s is %s, and an order by that code is found', (code, loinc) => {
    expect(row(code).loinc).toBe(loinc)
    const findings = createFindings(texts.order)
    const naming = { by: 'loinc', value: loinc } as const
    expect(createTestFinder(SITE.catalogue)({ item: '1', names: [naming] }, findings)).toBe(code)
  })
})
