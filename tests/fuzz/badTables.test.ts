import { describe, expect, it } from 'vitest'
import type { Catalogue, StockTube } from '../../src/core/catalogue/catalogue.ts'
import { ADDITIVES } from '../../src/core/catalogue/additives.ts'
import { catalogueJson } from '../../src/app/site/catalogue/writeCatalogue.ts'
import stockCsv from '../../src/data/catalogue/stock.csv?raw'
import testsCsv from '../../src/data/catalogue/tests.csv?raw'
import tubesCsv from '../../src/data/catalogue/tubes.csv?raw'
import { attack, PATIENCE } from '../support/fuzz/attack.ts'
import { doubles, hollow, isDay, readable, readableLines, when, whole, within } from '../support/fuzz/nonsense.ts' // prettier-ignore
import { handlers, rows, site } from '../support/fuzz/readers.ts'

async function readCatalogue(bytes: Uint8Array): Promise<Catalogue | undefined> {
  const read = await handlers.catalogue({ bytes, current: site.catalogue, texts: site.texts })
  return read?.reading.ok === true ? read.reading.value : undefined
}

function testNonsense(test: Catalogue['tests'][number]): string[] {
  return [
    ...readable('code', test.code),
    ...readable('name', test.name),
    ...test.aliases.flatMap((alias) => readable('alias', alias)),
    ...readable('sharing', test.sharing),
    ...readable('LOINC', test.loinc ?? 'x'),
    ...readable('local code', test.localCode ?? 'x'),
    ...readableLines('source', test.source),
    ...within('least volume', test.least_mL, 0.001, 60),
    ...within('preferred volume', test.preferred_mL, test.least_mL, 60),
    ...within('time limit', test.timeLimit_min ?? 1, 1, 50_000),
    ...within('time limit on heparin', test.timeLimitHeparin_min ?? 1, 1, 50_000),
    ...when(test.accepts.length === 0, 'no specimen'),
    ...when(test.accepts.some(({ additive }) => !ADDITIVES.includes(additive)), 'unknown additive'),
    ...when(test.handling.includes('ice') && test.handling.includes('warm'), 'on ice and warm'),
    ...doubles('handling', test.handling),
  ] // prettier-ignore
}

function tubeNonsense(tube: Catalogue['tubes'][number]): string[] {
  return [
    ...readable('tube code', tube.code),
    ...readable('tube name', tube.name),
    ...readable('closure', tube.closure, false),
    ...readable('local code', tube.localCode ?? 'x'),
    ...readableLines('source', tube.source),
    ...when(!ADDITIVES.includes(tube.additive), 'unknown additive'),
    ...within('nominal volume', tube.nominal_mL, 0.05, 60),
    ...when(!(tube.inner_mL > tube.nominal_mL), 'draws more than it holds'),
    ...within('least fill', tube.leastFill_pct, 0.1, 100),
    ...whole('inversions', tube.inversionsMin),
    ...whole('inversions', tube.inversionsMax),
    ...within('inversions', tube.inversionsMin, 0, tube.inversionsMax),
    ...within('inversions', tube.inversionsMax, 0, 60),
    ...within('clotting', tube.clot_min ?? 1, 1, 1000),
  ]
}

function catalogueNonsense({ tests, tubes, version }: Catalogue): string[] {
  return [
    ...hollow(tests),
    ...hollow(tubes),
    ...readable('version', version),
    ...when(tests.length === 0 || tubes.length === 0, 'nothing in it'),
    ...tests.flatMap(testNonsense),
    ...tubes.flatMap(tubeNonsense),
    ...doubles('test', tests.map(({ code }) => code)),
    ...doubles('name', tests.map(({ name }) => name)),
    ...doubles('LOINC', tests.flatMap(({ loinc }) => loinc ?? [])),
    ...doubles('tube', tubes.map(({ code }) => code)),
  ] // prettier-ignore
}

async function readLots(bytes: Uint8Array): Promise<readonly StockTube[] | undefined> {
  const { tubes } = site.catalogue
  const read = await handlers.stock({ bytes, tubes, texts: site.texts })
  return read?.reading.ok === true ? read.reading.value : undefined
}

function stockNonsense(stock: readonly StockTube[]): string[] {
  const known = new Set(site.catalogue.tubes.map(({ code }) => code))
  return [
    ...hollow(stock),
    ...doubles('lot', stock.map(({ tubeCode, lot }) => `${tubeCode}/${lot}`)),
    ...stock.flatMap((lot) => [
      ...readable('lot', lot.lot),
      ...when(lot.lot.length > 20, `lot of ${lot.lot.length} signs`),
      ...when(!known.has(lot.tubeCode), `no tube ${lot.tubeCode}`),
      ...when(!isDay(lot.expires), `expires on no day: ${lot.expires}`),
      ...within('year of expiry', Number(lot.expires.slice(0, 4)), 2000, 2100),
      ...whole('count', lot.count),
      ...within('count', lot.count, 0, 1_000_000),
    ]),
  ] // prettier-ignore
}

const small = {
  version: '1',
  tests: site.catalogue.tests.slice(0, 6),
  tubes: site.catalogue.tubes.slice(0, 4),
  norms: site.catalogue.norms,
}

describe('tables that were tampered with', PATIENCE, () => {
  it.each([
    ['tests as CSV', { format: 'csv', texts: [rows(testsCsv, 8), rows(testsCsv, 20)] }],
    ['tubes as CSV', { format: 'csv', texts: [rows(tubesCsv, 8), rows(tubesCsv, 20)] }],
    ['a catalog as JSON', { format: 'json', texts: [JSON.stringify(JSON.parse(catalogueJson(small)))] }], // prettier-ignore
  ] as const)('%s', async (_name, seeds) => {
    const result = await attack({ seeds, read: readCatalogue, nonsense: catalogueNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
    expect(result.refused).toBeGreaterThan(0)
  })

  it('stock as CSV', async () => {
    const seeds = { format: 'csv', texts: [rows(stockCsv, 4), rows(stockCsv, 12)] } as const
    const result = await attack({ seeds, read: readLots, nonsense: stockNonsense })
    expect(result.broken).toEqual([])
    expect(result.accepted).toBeGreaterThan(0)
    expect(result.refused).toBeGreaterThan(0)
  })
})
