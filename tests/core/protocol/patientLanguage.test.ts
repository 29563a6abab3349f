import { describe, expect, it } from 'vitest'
import { writeBundle } from '../../../src/core/fhir/bundle.ts'
import { recordBundle } from '../../../src/app/record/recordBundle.ts'
import { inLanguage } from '../../../src/core/basics/locale.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { LANGUAGE_FILES } from '../../../src/data/languages.ts'
import { drawDriver, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'

const told = (draw: DrawDriver): readonly unknown[] => {
  draw.tries('aftercareTold')
  return draw.last()
}

describe('the language of the patient', () => {
  it('goes with the aftercare that was told in it', () => {
    expect(told(drawDriver({ patientLanguage: 'es' }))).toEqual([
      { type: 'aftercareTold', language: 'es' },
    ])
  })

  it('is not claimed of a draw of which nobody knows it', () => {
    expect(told(drawDriver())).toEqual([{ type: 'aftercareTold' }])
  })

  it('can be chosen at the chair, and taken back', () => {
    const draw = drawDriver({ patientLanguage: 'en' })
    expect(draw.tries({ type: 'choosePatientLanguage', language: 'en' }).kind).toBe('impossible')
    draw.tries({ type: 'choosePatientLanguage', language: 'es' })
    expect(draw.state().patientLanguage).toBe('es')
    draw.tries('goBack')
    expect(draw.state().patientLanguage).toBe('en')
  })

  it('stands in the note, in the words of the note', () => {
    const log = sampleLog({ opening: { patientLanguage: 'es' } })
    expect(recordNote(log, LANGUAGE_FILES.en.texts).text).toContain("Patient's language: Spanish")
    const spanish = inLanguage('es', () => recordNote(log, LANGUAGE_FILES.es.texts).text)
    expect(spanish).toContain('Idioma del paciente: español')
    expect(spanish).not.toContain("Patient's")
  })
})

describe('the record for machines', () => {
  it('is the same whatever language the screens have', () => {
    const log = sampleLog({ opening: { patientLanguage: 'es' } })
    const english = { ...shippedSite, recordTexts: LANGUAGE_FILES.en.texts }
    const spanish = { ...english, texts: LANGUAGE_FILES.es.texts }
    const bundle = recordBundle(log, english, sha256)
    expect(inLanguage('es', () => recordBundle(log, spanish, sha256))).toEqual(bundle)
    // Without that it would not be.
    expect(inLanguage('es', () => writeBundle(log, spanish.texts, sha256))).not.toEqual(bundle)
  })
})
