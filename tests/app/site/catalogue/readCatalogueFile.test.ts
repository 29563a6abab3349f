import { describe, expect, it } from 'vitest'
import { catalogueChanges } from '../../../../src/app/site/catalogue/catalogueChanges.ts'
import { readCatalogueFile } from '../../../../src/app/site/catalogue/readCatalogueFile.ts'
import {
  catalogueJson,
  testsCsv,
  tubesCsv,
} from '../../../../src/app/site/catalogue/writeCatalogue.ts'
import { faulty } from '../../../../src/core/basics/result.ts'
import { texts } from '../../../../src/data/en/texts.ts'
import { SITE } from '../../../support/planning.ts'

const { catalogue } = SITE
const [first, second, ...rest] = catalogue.tubes
const none = { added: [], removed: [], changed: [] }

const read = (text: string) => readCatalogueFile(catalogue, text, texts)
/** The catalogue of a file that reads, and what taking it over would change. */
const takenFrom = (text: string) => {
  const reading = read(text)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return { next: reading.value, ...catalogueChanges(catalogue, reading.value) }
}

describe('the preview of an import', () => {
  it('lists what would be added, removed and changed, by column', () => {
    const text = tubesCsv([
      { ...first!, nominal_mL: 9, closure: 'white' },
      { ...second!, code: 'new' },
      ...rest,
    ])
    const { next, tests, tubes } = takenFrom(text)
    expect(tubes).toEqual({
      added: ['new'],
      removed: [second!.code],
      changed: [{ code: first!.code, columns: ['nominal_mL', 'closure'] }],
    })
    expect(tests).toEqual(none)
    expect(next.tubes[0]?.nominal_mL).toBe(9)
    expect(next.tests).toBe(catalogue.tests)
  })

  it('has no changes for what is already there, in CSV and JSON', () => {
    for (const text of [
      testsCsv(catalogue.tests),
      tubesCsv(catalogue.tubes),
      catalogueJson(catalogue),
    ]) {
      const { tests, tubes } = takenFrom(text)
      expect([tests, tubes]).toEqual([none, none])
    }
  })

  it('offers nothing to accept while there is a fault', () => {
    const reading = read(tubesCsv(catalogue.tubes).replace(',citrate,', ',honey,'))
    expect(reading).toMatchObject(faulty([{ table: 'tubes', row: 4, column: 'additive' }]))
  })

  it('an empty or foreign file has faults, not changes', () => {
    for (const text of ['', 'hello', 'a,b\n1,2\n', '{"tests":[]}']) {
      const reading = read(text)
      expect(reading.ok || reading.faults).not.toHaveLength(0)
      expect(reading.ok).toBe(false)
    }
  })
})
