import { describe, expect, it } from 'vitest'
import type { TestRow } from '../../../src/core/catalogue/catalogue.ts'
import { nameFaults } from '../../../src/core/catalogue/nameFaults.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { SITE } from '../../support/planning.ts'

const [sodium, potassium] = SITE.catalogue.tests
const [tube, other] = SITE.catalogue.tubes
const faultsOf = (a: Partial<TestRow>, b: Partial<TestRow>): string[] =>
  nameFaults(
    {
      tests: [
        { ...sodium!, ...a },
        { ...potassium!, ...b },
      ],
      tubes: [],
    },
    texts,
  ).map(({ row, column, text }) => `${row} ${column}: ${text}`)

describe('what tests and tubes are called', () => {
  it('has no fault in the shipped catalog', () => {
    expect(nameFaults(SITE.catalogue, texts)).toEqual([])
  })

  it.each([
    [
      'codes that differ by case',
      { code: 'AB1' },
      { code: 'ab1' },
      /^2 code: "ab1" already stands in row 1 as code/,
    ],
    [
      'codes that differ by width',
      { code: 'ab1' },
      { code: '\uFF41\uFF421' },
      /^2 code: "code" holds U\+FF41/,
    ],
    [
      'a code with a character that nobody sees',
      { code: 'ab\u200B1' },
      {},
      /^1 code: "code" holds U\+200B ZERO WIDTH SPACE/,
    ],
    [
      'one LOINC code on two tests',
      { loinc: '2951-2' },
      { loinc: '2951-2' },
      /^2 loinc: .* row 1 as loinc/,
    ],
    [
      'one local code on two tests',
      { localCode: 'L1' },
      { localCode: 'l1' },
      /^2 localCode: .* row 1 as localCode/,
    ],
    ['one name on two tests', { name: 'Salt' }, { name: 'salt' }, /^2 name: .* row 1 as name/],
    [
      'another name that is the name of the other',
      { name: 'Salt' },
      { aliases: ['x', 'SALT'] },
      /^2 aliases: .* row 1 as name/,
    ],
    [
      'the same the other way round',
      { aliases: ['Salt'] },
      { name: 'salt' },
      /^1 aliases: .* row 2 as name/,
    ],
    [
      'another name that is the code of the other',
      { code: 'salt' },
      { aliases: ['Salt'] },
      /^2 aliases: .* row 1 as code/,
    ],
    ['a name over two lines', { name: 'Salt\nConsent: given' }, {}, /^1 name: .*U\+000A LINE FEED/],
    ['a source that turns the writing', { source: 'a\u202Eb' }, {}, /^1 source: .*U\+202E/],
  ])('names %s', (what, a, b, expected) => {
    const faults = faultsOf(a, b)
    expect(faults[0]).toMatch(expected)
    // Letters of another width are told both as what they are and as what they are mistaken for.
    expect(faults).toHaveLength(what.includes('width') ? 2 : 1)
  })

  it('lets two tests share a word to search by, and one test repeat itself', () => {
    expect(faultsOf({ aliases: ['salts', 'blood'] }, { aliases: ['blood'] })).toEqual([])
    expect(faultsOf({ code: 'na', name: 'NA', aliases: ['na'], localCode: 'Na' }, {})).toEqual([])
  })

  it('holds for tubes too: codes and local codes, but not the words on them', () => {
    const tubes = [
      { ...tube!, localCode: 'T1' },
      { ...other!, localCode: 't1', name: tube!.name },
    ]
    expect(nameFaults({ tests: [], tubes }, texts)).toMatchObject([{ row: 2, column: 'localCode' }])
  })
})
