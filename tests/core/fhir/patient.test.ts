import { describe, expect, it } from 'vitest'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { sampleLog, sampleOpening } from '../../support/sampleLog.ts'

describe('the patient of a bundle', () => {
  it('gives family and given names as R4 parts them, and of an old record the text alone', () => {
    const who = { ...sampleOpening().patient, fullName: 'Alex B. Invented' }
    const names = { familyName: 'Invented', givenNames: 'Alex B.' }
    const nameIn = (patient: typeof who) =>
      ofType(bundleOf(sampleLog({ opening: { patient } })), 'Patient')[0]?.name
    expect(nameIn({ ...who, ...names })).toEqual([
      { text: 'Alex B. Invented', family: 'Invented', given: ['Alex', 'B.'] },
    ])
    expect(nameIn(who)).toEqual([{ text: 'Alex B. Invented' }])
  })
})
