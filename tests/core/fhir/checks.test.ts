import { describe, expect, it } from 'vitest'
import { asJson, bundleOf, ofType, withTypedReferences } from '../../support/fhirBundle.ts'
import { fhirIssues } from '../../support/fhirChecks.ts'
import { structureIssues } from '../../support/fhirDefinitions.ts'
import { sampleLog } from '../../support/sampleLog.ts'

describe('the checks themselves', () => {
  it('find a reference to the wrong kind of resource', () => {
    const bundle = withTypedReferences(bundleOf(sampleLog()))
    const [specimen] = ofType(bundle, 'Specimen')
    const wrong = { ...specimen, subject: { reference: 'Procedure/x' } }
    expect(structureIssues(wrong)).not.toEqual([])
  })

  const good = asJson(bundleOf(sampleLog()))
  const broken = (change: (specimen: Record<string, unknown>) => void): string[] => {
    const copy = structuredClone(good)
    const entry = copy['entry'] as { resource: Record<string, unknown> }[]
    change(entry.find(({ resource }) => resource['resourceType'] === 'Specimen')!.resource)
    return [...structureIssues(copy), ...fhirIssues(copy)]
  }

  it.each<[string, (specimen: Record<string, unknown>) => void]>([
    ['a status of no value set', (s) => void (s['status'] = 'banana')],
    [
      'an empty quantity',
      (s) => void ((s['collection'] as Record<string, unknown>)['quantity'] = {}),
    ],
    ['an unknown field', (s) => void (s['color'] = 'red')],
    ['two subjects', (s) => void (s['subject'] = [s['subject'], s['subject']])],
    ['a reference to nothing', (s) => void (s['subject'] = { reference: 'urn:uuid:none' })],
    [
      'a wrong additive code',
      (s) =>
        void ((s['container'] as Record<string, unknown>[])[0]!['additiveCodeableConcept'] = {
          coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0371', code: 'ZZZ' }],
        }),
    ],
    [
      'a date that is none',
      (s) =>
        void ((s['collection'] as Record<string, unknown>)['collectedPeriod'] = {
          start: '25/11/2026',
        }),
    ],
  ])('find %s', (_what, change) => {
    expect(broken(change)).not.toEqual([])
  })
})
