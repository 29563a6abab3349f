import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog } from '../../support/sampleLog.ts'

describe('the procedure of a bundle', () => {
  it('has the tourniquet and the needle as structure, not only as text', () => {
    const bundle = bundleOf(sampleLog())
    expect(ofType(bundle, 'Observation').map(({ valueQuantity }) => valueQuantity?.value)).toEqual([
      43,
    ])
    const [procedure] = ofType(bundle, 'Procedure')
    expect(procedure?.usedCode?.[0]?.coding?.[0]?.code).toBe('winged-21G')
  })

  // HL7 v2 table 0490: RH is hemolysis. Where the request is the site's own, this alone tells the laboratory why.
  it('says why it is drawn again, and what it is drawn for again', () => {
    const recollects = { drawId: 'KM47-20261124-0007', tubeIds: ['t2'], reason: 'RH' } as const
    const [procedure] = ofType(bundleOf(sampleLog({ opening: { recollects } })), 'Procedure')
    expect(procedure?.reasonCode).toMatchObject([
      { coding: [{ code: 'RH' }], text: 'KM47-20261124-0007 t2' },
    ])
    expect(ofType(bundleOf(sampleLog()), 'Procedure')[0]).not.toHaveProperty('reasonCode')
  })

  it('has as notes what no other resource holds, and nothing twice', () => {
    const [procedure] = ofType(bundleOf(sampleLog()), 'Procedure')
    const notes = procedure?.note?.map(({ text }) => text) ?? []
    const has = (start: string): boolean => notes.some((text) => text.startsWith(start))
    expect(has('Puncture 1.')).toBe(true)
    expect(has('Before the draw.')).toBe(true)
    expect(has('Tubes in the order drawn.')).toBe(false)
    expect(has('For the laboratory to know.')).toBe(false)
  })
})
