import { describe, expect, it } from 'vitest'
import {
  blankCells,
  cellsOf,
  EDITABLE,
  withRow,
} from '../../../../src/app/site/catalogue/editRows.ts'
import { readTests } from '../../../../src/app/site/catalogue/readCatalogue.ts'
import { testsCsv } from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { shippedSite } from '../../../support/site.ts'

const { texts, catalogue, stock } = shippedSite
const tables = { catalogue, stock }

describe('a table changed row by row', () => {
  it.each(EDITABLE)('%s: every row put back as it was changes nothing', (table) => {
    cellsOf(table, tables).forEach((cells, at) => {
      // The last rows stand for all: the whole tables are read each time.
      if (at < cellsOf(table, tables).length - 3) return
      expect(withRow(table, tables, at, cells, texts)).toEqual({ ok: true, value: tables })
    })
  })

  it('finds in a row exactly what the import finds in a file with that row', () => {
    const cells = cellsOf('tests', tables)[3] ?? {}
    const bad = { ...cells, least_mL: 'much', specimen: 'honey', code: 'sodium', name: '' }
    const asRow = withRow('tests', tables, 3, bad, texts)
    const lines = testsCsv(catalogue.tests).split('\n')
    lines[4] = `sodium,,${cells.aliases},honey,much,${lines[4]?.split(',').slice(5).join(',')}`
    const asFile = readTests(lines.join('\n'), texts)
    expect(asRow.ok).toBe(false)
    expect(asFile.ok).toBe(false)
    if (asRow.ok || asFile.ok) return
    expect(asRow.faults).toEqual(asFile.faults)
    expect(asRow.faults.map(({ column }) => column)).toEqual(
      expect.arrayContaining(['code', 'name', 'specimen', 'least_mL']),
    )
  })

  it('adds a row at the end and takes one out', () => {
    const like = cellsOf('tubes', tables)[0] ?? {}
    const added = withRow(
      'tubes',
      tables,
      catalogue.tubes.length,
      { ...like, code: 'mine', name: 'Mine' },
      texts,
    )
    expect(added.ok && added.value.catalogue.tubes.at(-1)?.code).toBe('mine')
    const out = withRow('tests', tables, 0, undefined, texts)
    expect(out.ok && out.value.catalogue.tests.length).toBe(catalogue.tests.length - 1)
  })

  it('asks of a blank row what must stand in it', () => {
    const read = withRow('tests', tables, catalogue.tests.length, blankCells('tests'), texts)
    expect(read.ok).toBe(false)
    if (read.ok) return
    const row = catalogue.tests.length + 1
    expect(read.faults.every((fault) => fault.row === row)).toBe(true)
  })

  it('keeps what a spreadsheet would run as the text that was typed', () => {
    const cells = { ...cellsOf('stock', tables)[0], lot: '=1+1' }
    const read = withRow('stock', tables, 0, cells, texts)
    expect(read.ok && read.value.stock[0]?.lot).toBe('=1+1')
  })

  it('lets the last lot go, since a stock may be empty, and no last test', () => {
    const [lot] = stock
    const one = { catalogue, stock: lot ? [lot] : [] }
    expect(withRow('stock', one, 0, undefined, texts)).toEqual({
      ok: true,
      value: { catalogue, stock: [] },
    })
    const last = { catalogue: { ...catalogue, tests: catalogue.tests.slice(0, 1) }, stock }
    expect(withRow('tests', last, 0, undefined, texts).ok).toBe(false)
  })
})
