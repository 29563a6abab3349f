import { expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { sampleOpening, sha256 } from '../../support/sampleLog.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { createSimulatedDraw } from '../../../src/core/scenario/simulatedDraw.ts'

// The ages are common practice, no source; the law of the place and local policy come first.
const noteOf = (birthDate: string, ...said: readonly ('confirmConsent' | 'guardian')[]): string => {
  const opening = sampleOpening()
  const patient = { ...opening.patient, birthDate }
  const draw = createSimulatedDraw({ ...opening, patient }, sha256)
  draw.dispatch({ type: 'confirmPatient' }, 'voice', 'patient confirmed')
  for (const each of said) {
    if (each === 'guardian') draw.dispatch({ type: 'consentFrom', how: 'guardian' }, 'touch')
    else draw.dispatch({ type: each }, 'voice', 'consent given')
  }
  const { drawId } = opening
  return writeNote(
    { format: 'stillhand-log', version: 1, drawId, entries: draw.log() },
    noteTemplate,
  ).text
}
const line = (note: string, field: string): string =>
  note.split('\n').find((each) => each.trimStart().startsWith(field)) ?? ''

it.each([
  ['a newborn', '2026-11-01', 'by whom was not said', 'by whom was not said'],
  ['a schoolchild', '2018-03-02', 'said by the patient', 'by whom was not said'],
  ['somebody of sixteen', '2010-11-01', 'said by the patient', 'by the patient'],
])('of %s only what they can have said stands in the note', (_who, born, name, consent) => {
  const note = noteOf(born, 'confirmConsent')
  expect(line(note, 'Identity')).toContain(name)
  expect(line(note, 'Consent')).toContain(consent)
})

it('tells the parent who agreed', () => {
  expect(line(noteOf('2026-11-01', 'guardian'), 'Consent')).toContain('by parent or guardian')
})
