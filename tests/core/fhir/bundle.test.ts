import { describe, expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import type { Bundle } from '../../../src/core/fhir/resources.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { asJson, bundleOf, ofType, withTypedReferences } from '../../support/fhirBundle.ts'
import { fhirIssues } from '../../support/fhirChecks.ts'
import { structureIssues } from '../../support/fhirDefinitions.ts'
import { DRAWS } from '../../support/fhirDraws.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { readBundle } from '../../support/readBundle.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { summaryOf } from '../../support/summaryOf.ts'

describe.each(DRAWS)('the bundle of %s', (_name, log) => {
  const bundle = bundleOf(log)

  it('fits the structure definitions of R4, resource by resource', () => {
    const typed = withTypedReferences(bundle)
    for (const { resource } of typed.entry) expect(structureIssues(resource)).toEqual([])
    expect(structureIssues(typed)).toEqual([])
  })

  it('has required codes, codes that their systems have, no empty value and no loose reference', () => {
    expect(fhirIssues(asJson(bundle))).toEqual([])
  })

  it('gives the same draw back, for all that R4 holds', () => {
    expect(readBundle(asJson(bundle) as unknown as Bundle)).toEqual(summaryOf(log))
  })

  it('has every text filled in', () => {
    // The note says in its own braces where a site may put a field; none may be left.
    expect(JSON.stringify(bundle).match(/\{\w+\}|undefined|NaN/g)).toBeNull()
    expect(writeNote(log, noteTemplate).text).not.toMatch(/\{\w+\}|undefined|NaN/)
  })

  it('has no specimen without a subject, a collector and a time', () => {
    for (const specimen of ofType(bundle, 'Specimen')) {
      const { collector, collectedPeriod, collectedDateTime } = specimen.collection
      expect(specimen.subject.reference).toMatch(/^urn:uuid:/)
      expect(collector.reference).toMatch(/^urn:uuid:/)
      expect(collectedPeriod?.start ?? collectedDateTime).toMatch(/^\d{4}-.*[+-]\d\d:\d\d$/)
    }
  })

  it('carries the chart note word for word', () => {
    const [document] = ofType(bundle, 'DocumentReference')
    const attachment = document?.content[0]?.attachment
    const text = Buffer.from(attachment?.data ?? '', 'base64').toString('utf8')
    expect(text).toBe(recordNote(log, texts).text)
    expect(attachment?.size).toBe(Buffer.byteLength(text))
  })
})

describe('writeBundle', () => {
  it('always gives the same bundle for the same log', () => {
    expect(bundleOf(sampleLog())).toEqual(bundleOf(sampleLog()))
  })

  it('marks an invented draw as test data in the bundle and each resource', () => {
    const bundle = bundleOf(sampleLog({ opening: { invented: true } }))
    for (const item of [bundle, ...bundle.entry.map(({ resource }) => resource)]) {
      expect(item.meta?.tag[0]?.code).toBe('HTEST')
    }
  })
})
