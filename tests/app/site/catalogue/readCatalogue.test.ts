import { describe, expect, it } from 'vitest'
import {
  readStock,
  readTests,
  readTubes,
} from '../../../../src/app/site/catalogue/readCatalogue.ts'
import {
  readBloodLimits,
  readCatalogueJson,
  readNorms,
} from '../../../../src/app/site/catalogue/readJson.ts'
import { readSpecimen, writeSpecimen } from '../../../../src/app/site/catalogue/specimenWords.ts'
import {
  catalogueJson,
  stockCsv,
  testsCsv,
  tubesCsv,
} from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { ok, type Result } from '../../../../src/core/basics/result.ts'
import { SITE } from '../../../support/planning.ts'

const TUBES =
  'code,name,additive,nominal_mL,inner_mL,leastFill_pct,inversionsMin,inversionsMax,clot_min,closure,localCode,source'
const TESTS =
  'code,name,aliases,specimen,least_mL,preferred_mL,sharing,handling,fasting,timeLimit_min,timeLimitHeparin_min,loinc,localCode,source'
const tubesOf = (text: string) => readTubes(text, texts)
const faultsOf = <T, F>(reading: Result<T, F>): readonly F[] => (reading.ok ? [] : reading.faults)
const faults = (text: string) =>
  faultsOf(tubesOf(text)).map(({ row, column }) => `${row} ${column}`)

describe('the starter catalog', () => {
  it('has at least 60 tests and 25 tubes, each with a source or marked as common practice', () => {
    const { tests, tubes } = SITE.catalogue
    expect(tests.length).toBeGreaterThanOrEqual(60)
    expect(tubes.length).toBeGreaterThanOrEqual(25)
    for (const { code, source } of [...tests, ...tubes]) expect(source, code).not.toBe('')
  })

  it('leaves LOINC and local codes to the site', () => {
    for (const { loinc, localCode } of SITE.catalogue.tests)
      expect([loinc, localCode]).toEqual([undefined, undefined])
  })

  it('has a tube for every test', () => {
    const additives = new Set(SITE.catalogue.tubes.map(({ additive }) => additive))
    for (const { code, accepts } of SITE.catalogue.tests) {
      expect(
        accepts.some(({ additive }) => additives.has(additive)),
        code,
      ).toBe(true)
    }
  })

  it('comes back the same from its own export', () => {
    const { tests, tubes } = SITE.catalogue
    expect(readTests(testsCsv(tests), texts)).toEqual(ok(tests))
    expect(tubesOf(tubesCsv(tubes))).toEqual(ok(tubes))
    expect(readStock(stockCsv(SITE.stock), tubes, texts)).toEqual(ok(SITE.stock))
    expect(readCatalogueJson(catalogueJson(SITE.catalogue), texts)).toMatchObject(
      ok({ tests, tubes }),
    )
  })
})

describe('faults name row and column', () => {
  it.each([
    ['a missing number', 'a,A,citrate,,6,90,3,4,,,,x', ['1 nominal_mL']],
    ['a word for a number', 'a,A,citrate,two,6,90,3,4,,,,x', ['1 nominal_mL']],
    ['a negative volume', 'a,A,citrate,-2,6,90,3,4,,,,x', ['1 nominal_mL']],
    ['an absurd volume', 'a,A,citrate,2000,6000,90,3,4,,,,x', ['1 nominal_mL', '1 inner_mL']],
    ['an unknown additive', 'a,A,honey,2,6,90,3,4,,,,x', ['1 additive']],
    [
      'two rows with one code',
      'a,A,citrate,2,6,90,3,4,,,,x\na,B,plain,2,6,90,0,0,,,,x',
      ['2 code'],
    ],
    ['an empty code', ',A,citrate,2,6,90,3,4,,,,x', ['1 code']],
    ['a row too short', 'a,A,citrate,2,6,90', ['1 ', '1 inversionsMin', '1 inversionsMax']],
    ['a draw larger than the tube', 'a,A,citrate,7,6,90,3,4,,,,x', ['1 inner_mL']],
  ])('%s', (_what, row, places) => {
    expect(faults(`${TUBES}\n${row}\n`)).toEqual(places)
    expect(tubesOf(`${TUBES}\n${row}\n`).ok).toBe(false)
  })

  it.each([
    ['an unknown specimen', 'a,A,,milk,1,2,open,,,,,,,x', ['1 specimen', '1 specimen']],
    ['an unknown handling', 'a,A,,serum,1,2,open,disco,,,,,,x', ['1 handling']],
    ['preferred below least', 'a,A,,serum,2,1,open,,,,,,,x', ['1 preferred_mL']],
    ['ice and warm', 'a,A,,serum,1,2,open,ice;warm,,,,,,x', ['1 handling']],
    ['maybe fasting', 'a,A,,serum,1,2,open,,maybe,,,,,x', ['1 fasting']],
    ['an empty sharing', 'a,A,,serum,1,2,,,,,,,,x', ['1 sharing']],
  ])('of a test: %s', (_what, row, places) => {
    const read = readTests(`${TESTS}\n${row}\n`, texts)
    expect([...new Set(faultsOf(read).map(({ row: r, column }) => `${r} ${column}`))]).toEqual([
      ...new Set(places),
    ])
  })

  it('missing, doubled and unknown columns', () => {
    expect(faults('code,name,colour,code\n')).toContain('0 additive')
    expect(faults('code,name,colour,code\n')).toContain('0 colour')
    expect(faults('code,name,colour,code\n')).toContain('0 code')
  })

  it('stock of a tube that does not exist, with a bad date and count', () => {
    const read = readStock(
      'tubeCode,lot,expires,count\nnope,L,31.12.2027,-1\n',
      SITE.catalogue.tubes,
      texts,
    )
    expect(faultsOf(read).map(({ column }) => column)).toEqual(['tubeCode', 'expires', 'count'])
  })

  it('JSON that is no JSON, and a wrong value by row and column', () => {
    expect(faultsOf(readCatalogueJson('{', texts))[0]?.text).toContain('Not valid JSON')
    const bad = JSON.parse(catalogueJson(SITE.catalogue)) as { tubes: { additive: string }[] }
    bad.tubes[2]!.additive = 'honey'
    expect(faultsOf(readCatalogueJson(JSON.stringify(bad), texts))).toMatchObject([
      { table: 'tubes', row: 3, column: 'additive' },
    ])
    expect(readNorms('{}', texts).ok).toBe(false)
    expect(readBloodLimits('[]', texts).ok).toBe(false)
  })
})

describe('reading is forgiving where nothing can go wrong', () => {
  it('takes semicolons, a byte order mark, Windows line ends and missing optional columns', () => {
    const text =
      '\uFEFFcode;name;additive;nominal_mL;inner_mL;leastFill_pct;inversionsMin;inversionsMax;source\r\na;A;citrate;2;6;90;3;4;x\r\n'
    expect(tubesOf(text)).toMatchObject(ok([{ code: 'a', nominal_mL: 2 }]))
  })
})

describe('formulas in cells', () => {
  it.each(['=1+1', '+1', '-1', '@x', '=HYPERLINK("http://x.invalid")'])(
    '%s is defused on export and comes back',
    (name) => {
      const [tube] = SITE.catalogue.tubes
      const text = tubesCsv([{ ...tube!, name }])
      expect(text.split('\n')[1]).toContain(`'${name.slice(0, 2).replace('"', '""')}`)
      expect(tubesOf(text)).toMatchObject(ok([{ name }]))
    },
  )
})

describe('specimen words', () => {
  it.each([
    'serum',
    'serum:noGel',
    'serum|plasma:heparin',
    'plasma:edta',
    'blood:edtaNoGel',
    'culture:cultureAerobic',
    'blood:acd',
  ])('%s reads and writes the same', (cell) => {
    const { needs, unknown } = readSpecimen(cell)
    expect(unknown).toEqual([])
    expect(writeSpecimen(needs)).toBe(cell)
  })

  it('plasma alone says too little', () => {
    expect(readSpecimen('plasma|serum').unknown).toEqual(['plasma'])
  })
})
