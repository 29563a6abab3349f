import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { everyAdditive } from '../../support/fhirDraws.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

describe('the specimens of a bundle', () => {
  // Table 0376 of HL7 version 2.9, as in the published definitions; the extension is R4's own.
  it.each([
    ['light', 'PRTL'],
    // "Critical refrigerated - must not be allowed to freeze or warm"; REF is for what may warm by accident.
    ['ice', 'CREF'],
    ['warm', 'C37'],
    ['upright', 'UPR'],
    ['roomOnly', 'CAMB'],
    ['traceFree', 'MTLF'],
    // "Critical. Do not expose to atmosphere. Do not uncap."
    ['noAir', 'CATM'],
  ] as const)('codes the handling %s as %s', (mark, code) => {
    const plan = samplePlan([sampleTube('t1', 'citrate', { handling: [mark] })])
    const [specimen] = ofType(bundleOf(sampleLog({ opening: { plan } })), 'Specimen')
    expect(specimen?.collection.extension?.[0]?.url).toBe(
      'http://hl7.org/fhir/StructureDefinition/specimen-specialHandling',
    )
    expect(specimen?.collection.extension?.[0]?.valueCodeableConcept.coding?.[0]?.code).toBe(code)
  })

  it('keeps venipuncture as the method of a culture bottle, and makes no specimen of a discard', () => {
    const plan = samplePlan([
      sampleTube('t1', 'plain', { role: 'discard' }),
      sampleTube('t2', 'cultureAerobic', { role: 'culture' }),
    ])
    const specimens = ofType(bundleOf(sampleLog({ opening: { plan } })), 'Specimen')
    const known = specimens.map(({ container }) => container[0]?.type.text)
    expect(known).not.toContain(plan.tubes[0]?.name)
    expect(specimens[0]?.collection.method.coding?.[0]?.code).toBe('VENIP')
  })

  it('keeps a specimen with a risk available and says the risk with its source', () => {
    const log = sampleLog({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
      add: [[123, { type: 'tubeOff', tubeId: 't1', fill: 'short', estimate_mL: 1 }]],
    })
    const [citrate] = ofType(bundleOf(log), 'Specimen')
    expect(citrate?.status).toBe('available')
    expect(citrate?.condition).toEqual([{ text: 'Filled short' }])
    expect(citrate?.collection.quantity).toMatchObject({ value: 1, code: 'mL' })
    expect(citrate?.note?.[0]?.text).toMatch(/^Citrate tube filled short.*Source: CLSI H21/)
  })

  // R4, Specimen.accessionIdentifier: "identifier assigned by the lab when accessioning specimen(s)".
  it('gives the laboratory’s own number as the accession, beside ours', () => {
    const log = sampleLog({
      add: [[341, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }]],
    })
    const [, serum] = ofType(bundleOf(log), 'Specimen')
    expect(serum?.accessionIdentifier?.value).toBe('LAB-9')
    expect(serum?.identifier[0]?.value).toBe('D7261125000302')
  })

  it('writes no quantity for a tube whose volume nobody gave', () => {
    const log = sampleLog({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
      add: [[123, { type: 'tubeOff', tubeId: 't1', fill: 'short' }]],
    })
    const [citrate] = ofType(bundleOf(log), 'Specimen')
    expect(citrate?.collection).not.toHaveProperty('quantity')
    expect(citrate?.container[0]).not.toHaveProperty('specimenQuantity')
  })

  // Table 0371 of HL7 version 2.9, as in the published definitions.
  it.each([
    ['citrate', 'C32'],
    ['plain', 'NONE'],
    ['activatorGel', 'SST'],
    ['heparinLithium', 'HEPL'],
    ['heparinSodium', 'HEPN'],
    ['edtaK2', 'EDTK'],
    ['fluorideOxalate', 'NAF'],
    ['thrombin', 'THROM'],
  ])('codes %s as %s', (additive, code) => {
    const coding = ofType(bundleOf(everyAdditive), 'Specimen')
      .map(({ container }) => container[0]?.additiveCodeableConcept.coding)
      .find((list) => list?.some((c) => c.code === additive))
    expect(coding?.[0]?.code).toBe(code)
  })

  // R4, Specimen.processing: "Details concerning processing and processing steps for the specimen".
  it('tells what was done to it with its time, and of what was only asked for nothing', () => {
    const plan = samplePlan([
      sampleTube('t1', 'citrate', { handling: ['ice', 'light'] }),
      sampleTube('t2', 'activatorGel', { handling: ['ice'] }),
    ])
    const log = sampleLog({
      opening: { plan },
      add: [[200, { type: 'tubeHandled', tubeId: 't1', how: 'ice' }]],
    })
    const [first, second] = ofType(bundleOf(log), 'Specimen')
    expect(first?.processing?.at(-1)).toEqual({
      description: 'on ice',
      timeDateTime: '2026-11-25T09:03:20+01:00',
    })
    expect(JSON.stringify(first?.processing)).not.toContain('light')
    expect(JSON.stringify(second?.processing ?? [])).not.toContain('ice')
  })
})
