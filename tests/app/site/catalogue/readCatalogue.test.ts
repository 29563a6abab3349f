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
import Papa from 'papaparse'
import { plainCell } from '../../../../src/app/site/catalogue/formulaCells.ts'
import { ok, type Result } from '../../../../src/core/basics/result.ts'
import { inPlainWork } from '../../../support/inPlainWork.ts'
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

  it('leaves local codes to the site', () => {
    for (const { localCode } of SITE.catalogue.tests) expect(localCode).toBeUndefined()
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

describe('columns that may be left out', () => {
  it('a tube without them fills by its vacuum and loses nothing', () => {
    expect(tubesOf(`${TUBES}\na,A,citrate,2,6,90,3,4,,,,x\n`)).toMatchObject(
      ok([{ kind: 'evacuated', fillsBy: 'vacuum', dead_mL: 0 }]),
    )
  })

  it.each([
    ['kind', 'barrel'],
    ['fillsBy', 'luck'],
    ['dead_mL', '2'],
    ['dead_mL', '-1'],
  ])('%s cannot be %s', (column, cell) => {
    const text = `${TUBES},${column}\na,A,citrate,2,6,90,3,4,,,,x,${cell}\n`
    expect(faults(text)).toContain(`1 ${column}`)
  })

  it('a test names what it must never meet and when to draw it', () => {
    const read = readTests(
      `${TESTS},neverIn,timing\na,A,,plasma:edta,1,2,open,,,,,,,x,gel,before the dose\n`,
      texts,
    )
    expect(read).toMatchObject(ok([{ neverIn: ['gel'], timing: 'before the dose' }]))
    expect(testsCsv(read.ok ? read.value : [])).toContain('gel')
    for (const word of ['glass', 'toString', '__proto__']) {
      const unknown = readTests(`${TESTS},neverIn\na,A,,serum,1,2,open,,,,,,,x,${word}\n`, texts)
      expect(faultsOf(unknown)).toMatchObject([{ row: 1, column: 'neverIn' }])
    }
  })

  it('a catalog in JSON that allows what it rules out has a fault, and one from before has the defaults', () => {
    const { tests, tubes } = SITE.catalogue
    const json = (test: object, tube: object): string =>
      JSON.stringify({ version: '1', tests: [{ ...tests[0], ...test }], tubes: [tube] })
    const gel = { accepts: [{ kind: 'serum', additive: 'activatorGel' }], neverIn: ['gel'] }
    expect(faultsOf(readCatalogueJson(json(gel, tubes[0] ?? {}), texts))).toMatchObject([
      { table: 'tests', row: 1, column: 'neverIn' },
    ])
    const { kind, fillsBy, dead_mL, ...before } = tubes.find(({ code }) => code === 'gel5')!
    expect([kind, fillsBy, dead_mL > 0]).toEqual(['evacuated', 'vacuum', true])
    expect(readCatalogueJson(json({}, before), texts)).toMatchObject(
      ok({ tubes: [{ kind: 'evacuated', fillsBy: 'vacuum', dead_mL: 0 }] }),
    )
  })
})

describe('formulas in cells', () => {
  // OWASP ASVS 5, requirement 1.2.10; white space, line breaks and wide forms: from memory.
  it.each([
    ' =1+1',
    '=1+1\nx',
    '\t=1',
    '\r=1',
    '\n=1',
    '\uFF1D1+1',
    '\uFF0B1',
    "'=1",
    "''=1",
    "'x",
  ])('%j begins with an apostrophe on export, and comes back as it was', (source) => {
    const [tube] = SITE.catalogue.tubes
    const text = tubesCsv([{ ...tube!, source }])
    const cells = Papa.parse<string[]>(text).data[1] ?? []
    expect(cells.at(-1)).toMatch(/^'/)
    expect(plainCell(cells.at(-1) ?? '')).toBe(source)
  })

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
    'plasma:heparin|serum',
    'plasma:edtaNoGel|serum:noGel',
    'blood:edtaK3|blood:edtaK2',
  ])('%s reads and writes the same', (cell) => {
    const { needs, unknown } = readSpecimen(cell)
    expect(unknown).toEqual([])
    expect(writeSpecimen(needs)).toBe(cell)
  })

  it('keep the order of preference', () => {
    const { needs } = readSpecimen('plasma:edtaNoGel|serum')
    expect(needs.map(({ additive }) => additive)).toEqual([
      ...['edtaK2', 'edtaK3'],
      ...['activatorGel', 'activator', 'plain', 'thrombin'],
    ])
  })

  it('leave out of a group what the test must never meet', () => {
    const additives = (cell: string, ...never: ('gel' | 'lithium' | 'sodium')[]) =>
      readSpecimen(cell, never).needs.map(({ additive }) => additive)
    expect(additives('plasma:edta', 'gel')).toEqual(['edtaK2', 'edtaK3'])
    expect(additives('serum|plasma:heparin', 'gel')).toEqual([
      ...['activator', 'plain', 'thrombin', 'heparinLithium'],
    ])
    expect(additives('blood:heparinNoGel', 'lithium')).toEqual(['heparinSodium'])
  })

  it('plasma alone says too little', () => {
    expect(readSpecimen('plasma|serum').unknown).toEqual(['plasma'])
  })
})

describe('a file made to take long', () => {
  const heading = TESTS
  it.each([
    ['40,000 columns', Array.from({ length: 40_000 }, (_, i) => `c${i}`).join(',')],
    ['one column 40,000 times', Array.from({ length: 40_000 }, () => 'code').join(',')],
    [
      'a number of 120,000 digits and a letter',
      `${heading}\nna,n,,serum,${'1'.repeat(120_000)}x,1,open,,,,,,,s`,
    ],
    [
      '20,000 rows of faults',
      `${heading}\n${'x,'.repeat(13)}x\n`.replace(/\n$/, '') + '\nx'.repeat(10_000),
    ],
  ])('%s is refused with little work', (_what, text) => {
    let reading: ReturnType<typeof readTests> | undefined
    const taken = inPlainWork(() => (reading = readTests(text, texts)))
    expect(taken).toBeLessThan(60)
    expect(reading?.ok).toBe(false)
  })

  it('shows of a long cell no more than a line', () => {
    const reading = readTests(`${heading}\nna,n,,serum,${'z'.repeat(1500)},1,open,,,,,,,s`, texts)
    for (const { text } of faultsOf(reading)) expect(text.length).toBeLessThan(200)
  })

  it('says that a column stands twice', () => {
    const reading = readTests(`${heading},code\nna`, texts)
    expect(faultsOf(reading)).toContainEqual(
      expect.objectContaining({ column: 'code', text: 'The column stands twice.' }),
    )
  })
})
