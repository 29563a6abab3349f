import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { HANDLING } from '../../../src/core/catalogue/handling.ts'
import { labelsFor, type LabelModel } from '../../../src/core/record/labels.ts'
import { LABEL_STOCK, layLabel, type LabelStock } from '../../../src/core/record/layLabel.ts'
import { textWidth_em } from '../../../src/core/record/textWidth.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { sampleLog } from '../../support/sampleLog.ts'

const { labels } = texts.screens
const model = (change: Partial<LabelModel> = {}): LabelModel => ({
  ...labelsFor(sampleLog())[1]!,
  ...change,
})
const rowOf = (label: LabelModel, id: string, stock: LabelStock = 'large') =>
  layLabel(label, stock, labels).rows.find((row) => row.id === id)

describe('what stands on a label', () => {
  it('names handling in words, and STAT before it', () => {
    const row = rowOf(model({ priority: 'stat', handling: ['ice', 'light'] }), 'marks')
    expect(row?.left).toBe('STAT · ICE · NO LIGHT')
    expect(rowOf(model({ handling: ['noAlcohol'] }), 'marks')).toBeUndefined()
  })

  it('has order, ward, tests and the collector beside the time', () => {
    const label = model({ ward: 'Ward 3' })
    expect(rowOf(label, 'order')).toMatchObject({ left: 'Order ORD-77', right: 'Ward 3' })
    expect(rowOf(label, 'tube')?.right).toBe('test-activatorGel')
    expect(rowOf(label, 'collected')?.left).toBe('25 Nov 2026 09:02 RE')
  })

  // Transfusion laboratories ask for a second number and the signature of the collector (hospital pages, second-hand).
  it('asks for the band number and the signature where the tube is for transfusion, and warns', () => {
    const label = model({ transfusion: true })
    expect(rowOf(label, 'band')?.left).toMatch(/^Band no\. _+$/)
    expect(rowOf(label, 'sign')?.left).toMatch(/^Signed _+$/)
    expect(rowOf(label, 'policy')?.left).toBe('Not for transfusion unless local policy allows')
    expect(rowOf(model({ transfusion: true, bandNumber: 'B-7' }), 'band')?.left).toBe(
      'Band no. B-7',
    )
    expect(rowOf(model(), 'sign')).toBeUndefined()
  })

  it('keeps band number and signature on small labels too, whatever else gives way', () => {
    const crowded = model({
      ...{ transfusion: true, priority: 'stat', handling: ['ice', 'light'], ward: 'W' },
      ...{ family: 'Featherstonehaugh-Cholmondeley', given: 'Maximiliana Theodora' },
    })
    const laid = layLabel(crowded, 'small', labels)
    const band = laid.rows.find(({ id }) => id === 'band')
    expect(band?.left).toMatch(/^Band no\. _+$/)
    expect(band?.right).toMatch(/^Signed _+$/)
    expect(laid.rows.find(({ id }) => id === 'collected')?.right).toBe('STAT · ICE · NO LIGHT')
    expect(laid.size_pt).toBeGreaterThanOrEqual(6)
    expect(laid.dropped).not.toContain('sign')
  })

  it.each(['small', 'large'] as const)(
    'never lets the signature go from a transfusion label, %s',
    (stock) => {
      const laid = layLabel(
        model({
          ...{ transfusion: true, priority: 'stat', bandNumber: 'TB-004711', ward: 'Ward 3' },
          ...{ family: 'Featherstonehaugh-Cholmondeley', given: 'Maximiliana Alexandra' },
        }),
        stock,
        labels,
      )
      expect(laid.rows.map(({ left, right }) => `${left} ${right}`).join()).toMatch(/Signed _+/)
      expect(laid.rows.map(({ left }) => left)).toContain('Band no. TB-004711')
    },
  )

  it('tells a culture bottle and its site on a small label, with handling beside the time', () => {
    const bottle = model({
      ...{ tubeName: 'Aerobic culture bottle', bodySite: 'left, hand', priority: 'stat' },
      ...{ family: 'Invented', given: 'Alex', tests: ['culture'] },
    })
    const laid = layLabel(bottle, 'small', labels)
    expect(laid.rows.map(({ id }) => id)).toEqual(['who', 'collected', 'tube', 'site'])
    expect(laid.rows[1]).toMatchObject({ right: 'STAT', bold: true })
  })

  it('says until when the first test must be done with the tube', () => {
    const limited = model({ limit: { min: 15, by: '09:17' } })
    expect(rowOf(limited, 'limit')?.left).toBe('Time limit 15 min: by 09:17')
    expect(rowOf(model(), 'limit')).toBeUndefined()
  })

  it.each([
    [90, 'Time limit 90 min: by 09:17'],
    [120, 'Time limit 2 h: by 09:17'],
    [1440, 'Time limit 24 h: by 09:17'],
    [250, 'Time limit 250 min: by 09:17'],
  ])('says a limit of %s min as people reckon with it', (min, text) => {
    expect(rowOf(model({ limit: { min, by: '09:17' } }), 'limit')?.left).toBe(text)
  })

  it.each([
    ['4471902', 'No. 4471902'],
    ['MRN 4471902', 'MRN 4471902'],
    ['ÖK-12', 'ÖK-12'],
  ])('says once that %s is the number of the record', (recordNumber, text) => {
    expect(rowOf(model({ recordNumber }), 'who')?.right).toBe(text)
  })

  it('drops nothing from the larger labels, and names what finds no room on the smaller', () => {
    const full = model({
      ...{ transfusion: true, bodySite: 'left arm, hand', ward: 'W', handling: ['ice'] },
      ...{ family: 'Featherstonehaugh-Cholmondeley', given: 'Maximiliana' },
    })
    expect(layLabel(full, 'small', labels).dropped).toContain('order')
    expect(layLabel(model({ ward: 'W', handling: ['ice'] }), 'large', labels).dropped).toEqual([])
    expect(layLabel(model({ ward: 'W', handling: ['ice'] }), 'large', labels).size_pt).toBe(8)
  })

  // Each bottle with its site (labce.com), each sample with its time point (nchlab test catalog GTT2HR75).
  it('never drops the time point, nor the site of a set of bottles', () => {
    const set = model({
      ...{ bodySite: 'left arm, hand', ward: 'W', handling: ['ice'], bandNumber: 'B-7' },
      ...{ family: 'Featherstonehaugh-Cholmondeley', given: 'Maximiliana' },
      ...{ limit: { min: 120, by: '11:02' }, timePoints: [{ point: 'set 2', number: 2, of: 2 }] },
    })
    expect(rowOf(set, 'point', 'small')).toMatchObject({
      left: 'set 2, 2 of 2',
      right: 'left arm, hand · ICE',
    })
    expect(rowOf(set, 'point')).toMatchObject({ right: 'left arm, hand' })
    expect(layLabel(set, 'small', labels).size_pt).toBeGreaterThanOrEqual(6)
    expect(rowOf(model(), 'point')).toBeUndefined()
  })

  it('tells the second blood group sample beside its time, where room is for nothing more', () => {
    const second = model({
      ...{ transfusion: true, family: 'Featherstonehaugh-Cholmondeley', given: 'Maximiliana' },
      timePoints: [{ point: 'second sample', number: 2, of: 2 }],
    })
    expect(rowOf(second, 'collected', 'small')?.right).toBe('second sample, 2 of 2')
    expect(rowOf(second, 'point')?.left).toBe('second sample, 2 of 2')
    expect(layLabel(second, 'small', labels).size_pt).toBeGreaterThanOrEqual(6)
  })

  it('has the body site on culture bottles only', () => {
    expect(labelsFor(sampleLog()).map(({ bodySite }) => bodySite)).toEqual(['', '', ''])
  })
})

const anyText = fc.string({ unit: fc.constantFrom(...'AaWwiMmé '), maxLength: 60 })
const anyLabel = fc.record({
  family: fc.constantFrom(
    'Li',
    'Wolfeschlegelsteinhausenbergerdorff',
    'WWWWWWWWWWWWWWWW',
    'García Márquez',
  ),
  given: anyText,
  ward: anyText,
  tubeName: anyText,
  bodySite: anyText,
  bandNumber: anyText,
  transfusion: fc.boolean(),
  limit: fc.constantFrom({ min: 15, by: '09:17' }, { min: 1200, by: '26 Nov 2026 05:02' }),
  tests: fc.array(anyText, { maxLength: 12 }),
  handling: fc.subarray([...HANDLING]),
  timePoints: fc.array(
    fc.record({ point: anyText, number: fc.integer({ min: 1, max: 9 }), of: fc.constant(9) }),
    { maxLength: 2 },
  ),
})

it('keeps the name within the width and all rows within the height, whatever stands on it', () => {
  fc.assert(
    fc.property(anyLabel, fc.constantFrom<LabelStock>('small', 'large'), (change, stock) => {
      const laid = layLabel(model(change), stock, labels)
      const { width_mm, height_mm } = LABEL_STOCK[stock]
      const width_pt = ((width_mm - 3) / 25.4) * 72
      for (const line of laid.lines) {
        expect(textWidth_em(line) * laid.nameSize_pt).toBeLessThanOrEqual(width_pt + 0.01)
      }
      const rows = laid.rows.length + 1
      const used_pt = laid.lines.length * laid.nameSize_pt * 1.12 + rows * laid.size_pt * 1.12
      expect(used_pt).toBeLessThanOrEqual(((height_mm - 8.5) / 25.4) * 72 + 0.01)
      expect(laid.size_pt).toBeGreaterThanOrEqual(6)
      expect(laid.rows.slice(0, 2).map(({ id }) => id)).toEqual(['who', 'collected'])
    }),
  )
})
