import { describe, expect, it } from 'vitest'
import { previewCatalogue } from '../../../../src/app/site/catalogue/previewCatalogue.ts'
import {
  catalogueJson,
  testsCsv,
  tubesCsv,
} from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { SITE } from '../../../support/planning.ts'

const { catalogue } = SITE
const [first, second, ...rest] = catalogue.tubes
const none = { added: [], removed: [], changed: [] }

describe('the preview of an import', () => {
  it('lists what would be added, removed and changed, by column', () => {
    const text = tubesCsv([
      { ...first!, nominal_mL: 9, closure: 'white' },
      { ...second!, code: 'new' },
      ...rest,
    ])
    const preview = previewCatalogue(catalogue, { name: 'tubes.csv', text }, texts)
    expect(preview.faults).toEqual([])
    expect(preview.tubes).toEqual({
      added: ['new'],
      removed: [second!.code],
      changed: [{ code: first!.code, columns: ['nominal_mL', 'closure'] }],
    })
    expect(preview.tests).toEqual(none)
    expect(preview.next?.tubes[0]?.nominal_mL).toBe(9)
    expect(preview.next?.tests).toBe(catalogue.tests)
  })

  it('has no changes for what is already there, in CSV and JSON', () => {
    for (const text of [
      testsCsv(catalogue.tests),
      tubesCsv(catalogue.tubes),
      catalogueJson(catalogue),
    ]) {
      const preview = previewCatalogue(catalogue, { name: 'x', text }, texts)
      expect([preview.faults, preview.tests, preview.tubes]).toEqual([[], none, none])
    }
  })

  it('offers nothing to accept while there is a fault', () => {
    const text = tubesCsv(catalogue.tubes).replace(',citrate,', ',honey,')
    const preview = previewCatalogue(catalogue, { name: 'tubes.csv', text }, texts)
    expect(preview.next).toBeUndefined()
    expect(preview.faults).toMatchObject([{ table: 'tubes', row: 4, column: 'additive' }])
    expect(preview.tubes).toEqual(none)
  })

  it('an empty or foreign file has faults, not changes', () => {
    for (const text of ['', 'hello', 'a,b\n1,2\n', '{"tests":[]}']) {
      const preview = previewCatalogue(catalogue, { name: 'x', text }, texts)
      expect(preview.faults.length).toBeGreaterThan(0)
      expect(preview.next).toBeUndefined()
    }
  })
})
