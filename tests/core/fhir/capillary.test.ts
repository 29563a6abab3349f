import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { DRAWS } from '../../support/fhirDraws.ts'

// Codes and displays as R4 publishes them, tables 0488, 0487 and 0163: the checks of every bundle look each of them up.
describe('blood from a heel in the bundle', () => {
  const log = DRAWS.find(([name]) => name.startsWith('blood from a heel'))![1]
  const bundle = bundleOf(log)
  const [specimen] = ofType(bundle, 'Specimen')
  const [procedure] = ofType(bundle, 'Procedure')

  it('says how, what and where', () => {
    expect(specimen?.collection.method.coding?.[0]?.code).toBe('CAP')
    expect(specimen?.type).toMatchObject({ coding: [{ code: 'BLD' }], text: 'Capillary blood' })
    expect(specimen?.collection.bodySite?.text).toBe('left heel')
    expect(procedure?.code.coding?.[0]?.code).toBe('CAP')
    expect(procedure?.usedCode ?? []).toEqual([])
  })

  it('carries the planned fill as what was collected, and the capacity of the tube', () => {
    expect(specimen?.collection.quantity?.value).toBe(0.4)
    expect(specimen?.container[0]?.capacity?.value).toBe(0.5)
  })

  it('ends when gauze is on the place', () => {
    const { start, end } = procedure?.performedPeriod ?? {}
    expect(Date.parse(end ?? '') - Date.parse(start ?? '')).toBe(40_000)
  })
})
