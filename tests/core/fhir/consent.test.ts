import { describe, expect, it } from 'vitest'
import type { ConsentBy, ConsentForm } from '../../../src/core/protocol/events.ts'
import { drawDriver, TO_HANDS } from '../../support/drawDriver.ts'
import { asJson, bundleOf, ofType, withTypedReferences } from '../../support/fhirBundle.ts'
import { fhirIssues } from '../../support/fhirChecks.ts'
import { codesOf, structureIssues } from '../../support/fhirDefinitions.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { logOf, sampleOpening } from '../../support/sampleLog.ts'

/** A draw that ends before any needle, with what was said of consent. */
const said = (...events: Parameters<typeof logOf>[0]): DrawLog =>
  logOf([[0, sampleOpening()], ...events])

const given = (by?: ConsentBy, form?: ConsentForm) =>
  said([10, { type: 'consentGiven', ...(by && { by }), ...(form && { form }) }])

const consentIn = (log: DrawLog) => ofType(bundleOf(log), 'Consent')[0]

/** FHIR R4 (4.0.1), Consent: its definition and code systems as published, and the rules ppc-1 and ppc-5 of its page. */
describe('consent in the bundle', () => {
  it('is not there where nobody recorded any', () => {
    expect(ofType(bundleOf(said()), 'Consent')).toEqual([])
  })

  it.each([
    ['patient', 'spoken', ['Alex Invented']],
    ['patient', 'implied', ['Alex Invented']],
    ['guardian', 'written', ['Parent or guardian']],
    ['interpreter', 'spoken', ['Alex Invented', 'Interpreter']],
  ] as const)('by the %s, %s, says who agreed and how', (by, form, who) => {
    const consent = consentIn(given(by, form))
    expect(consent).toMatchObject({ status: 'active', provision: { type: 'permit' } })
    expect(consent?.performer?.map(({ display }) => display)).toEqual(who)
    expect(consent?.category[1]?.coding?.[0]?.code).toBe(form)
  })

  it('names nobody where nobody said who agreed', () => {
    expect(consentIn(given())).not.toHaveProperty('performer')
  })

  it('refused is rejected, and given after all is active', () => {
    const refused = [10, { type: 'consentRefused' }] as const
    expect(consentIn(said(refused))).toMatchObject({
      status: 'rejected',
      provision: { type: 'deny' },
    })
    expect(consentIn(said(refused, [20, { type: 'consentGiven' }]))?.status).toBe('active')
  })

  it('taken back is inactive, from when and until when it held', () => {
    const log = said(
      [10, { type: 'consentGiven', by: 'guardian', form: 'spoken' }],
      [60, { type: 'exceptionRaised', kind: 'consentWithdrawn' }],
    )
    const consent = consentIn(log)
    expect(consent?.status).toBe('inactive')
    expect(consent?.provision.type).toBe('deny')
    const { start = '', end = '' } = consent?.provision.period ?? {}
    expect(Date.parse(end) - Date.parse(start)).toBe(50_000)
    expect(consent?.dateTime).toBe(end)
  })

  it('keeps the published definition, its codes, and the rules of its page', () => {
    const logs = [given('guardian', 'written'), said([10, { type: 'consentRefused' }])]
    for (const log of logs) {
      const bundle = bundleOf(log)
      const consent = ofType(bundle, 'Consent')[0]!
      expect(structureIssues(withTypedReferences(bundle))).toEqual([])
      expect(fhirIssues(asJson(bundle))).toEqual([])
      const state = codesOf('http://hl7.org/fhir/consent-state-codes')
      expect(state?.has(consent.status)).toBe(true)
      // ppc-1: either a policy or a policy rule; ppc-5: for treatment there must be a patient.
      expect(consent.policyRule.text).toBeTruthy()
      expect(consent.scope.coding?.[0]?.code).toBe('treatment')
      expect(consent.patient.reference).toBeTruthy()
    }
  })
})

describe('the tourniquet in the bundle', () => {
  it('on to find the vein is told apart from the stretch of the draw', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'bandOn')
    draw.tries({ type: 'chooseArm', arm: 'left' })
    draw.tries({ type: 'chooseVein', vein: 'medianCubital' })
    draw.advance(20_000)
    draw.does('bandOff', 'skinClean')
    draw.advance(40_000)
    draw.does('skinDry', 'bandOn', 'needleIn')
    draw.advance(9000)
    draw.does('bandOff')
    const entries = draw.log()
    const opened = entries[0]!.event
    const drawId = opened.type === 'drawOpened' ? opened.drawId : ''
    const bundle = bundleOf({ format: 'stillhand-log', version: 1, drawId, entries })
    const bands = ofType(bundle, 'Observation')
    expect(bands.map(({ code }) => code.coding?.[0]?.code)).toEqual([
      'tourniquetSearch',
      'tourniquet',
    ])
    expect(bands.map(({ code }) => code.text)).toEqual([
      'Tourniquet on to find the vein',
      'Tourniquet on',
    ])
  })
})
