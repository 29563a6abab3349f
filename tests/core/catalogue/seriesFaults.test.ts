import { describe, expect, it } from 'vitest'
import { seriesFaults, seriesFor } from '../../../src/core/catalogue/seriesFaults.ts'
import type { SeriesRow } from '../../../src/core/catalogue/series.ts'
import { readCatalogueFile } from '../../../src/app/site/catalogue/readCatalogueFile.ts'
import { catalogueJson, testsCsv } from '../../../src/app/site/catalogue/writeCatalogue.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { SITE } from '../../support/planning.ts'

const { catalogue } = SITE
const row = (change: Partial<SeriesRow> = {}): SeriesRow => ({
  ...{ code: 'own', name: 'Own series', aliases: [], source: 'invented' },
  sittings: [
    { point: 'first', tests: ['glucose'] },
    { point: '1 h', tests: ['glucose'], from: 'doseGiven', after_min: 60 },
  ],
  ...change,
})
const faults = (series: readonly SeriesRow[]): readonly string[] =>
  seriesFaults({ series, doses: [] }, catalogue.tests, texts.catalogue).map(
    ({ row: at, text }) => `${at}: ${text}`,
  )

describe('series in a catalog', () => {
  it('are without fault as shipped, each with its source', () => {
    expect(seriesFaults(catalogue, catalogue.tests, texts.catalogue)).toEqual([])
    const sources = [...(catalogue.series ?? []), ...(catalogue.doses ?? [])]
    expect(sources.length).toBeGreaterThan(15)
    expect(sources.filter(({ source }) => source.trim() === '')).toEqual([])
  })

  it('are refused for tests that are not there, a code that is taken, and times that do not rise', () => {
    expect(faults([row()])).toEqual([])
    expect(faults([row({ sittings: [{ point: 'x', tests: ['nothing'] }] })])).toEqual([
      '1: "nothing" is not in the catalog of tests.',
    ])
    expect(faults([row(), row()])).toEqual(['2: "own" is already the code of row 1.'])
    expect(faults([row({ code: 'glucose' })])).toHaveLength(1)
    const [first, second] = row().sittings
    expect(faults([row({ sittings: [first!, second!, second!] })])).toEqual([
      '1: Sitting 3 is not later than the one before it.',
    ])
  })

  it('are changed by a site as tests are: in the JSON of its catalog', () => {
    const own = { ...catalogue, series: [row()] }
    const read = readCatalogueFile(catalogue, catalogueJson(own), texts)
    expect(read.ok && read.value.series).toEqual([row()])
    const wrong = { ...catalogue, series: [row({ source: '' }), row({ code: 'glucose' })] }
    const json = JSON.stringify({ version: '1', tests: wrong.tests, tubes: wrong.tubes, series: wrong.series }) // prettier-ignore
    const refused = readCatalogueFile(catalogue, json, texts)
    expect(refused.ok ? [] : refused.faults.map(({ table, row: at }) => `${table} ${at}`)).toEqual([
      'series 2',
    ])
  })

  it('of tests that a site does not have are not offered', () => {
    const tests = catalogue.tests.filter(({ code }) => code !== 'troponin' && code !== 'digoxin')
    const left = seriesFor(catalogue, tests)
    expect(left.series.map(({ code }) => code)).not.toContain('troponin0and3h')
    expect(left.series.map(({ code }) => code)).toContain('ogtt75')
    expect(left.doses.flatMap((dose) => dose.tests)).not.toContain('digoxin')
    const read = readCatalogueFile(catalogue, testsCsv(tests), texts)
    expect(read.ok && read.value.series).toEqual(left.series)
  })
})
