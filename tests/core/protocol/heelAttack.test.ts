import { describe, expect, it } from 'vitest'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { stepView } from '../../../src/app/view/stepView.ts'
import type { Patient } from '../../../src/core/order/order.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { SITE } from '../../support/planning.ts'
import { sampleOpening } from '../../support/sampleLog.ts'
import { viewTexts } from '../../support/viewTexts.ts'

const baby = (givenNames: string, recordNumber: string): Patient => ({
  ...sampleOpening().patient,
  fullName: `${givenNames} Quince`,
  familyName: 'Quince',
  givenNames,
  birthDate: '2026-11-22',
  recordNumber,
  weight_kg: 2.9,
})
/** Twins: one family name, one day of birth, record numbers that differ in one figure. */
const A = baby('Baby A', 'N-4471')
const B = baby('Baby B', 'N-4472')
const heel = (patient: Patient, drawId: string): DrawDriver =>
  drawDriver({ patient, drawId, collecting: 'capillaryHeel' })

const WAY = ['identified:wristband', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands', 'chooseSide:left', 'siteWarm', 'skinClean', 'skinDry', 'lanced', 'dropWiped', 'tubeOn', 'tubeFull', 'tubeMixed', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'bleedingStopped'] as const // prettier-ignore

const logOf = (draw: DrawDriver) => {
  const { drawId } = draw.state().opened
  return { format: 'stillhand-log', version: 1, drawId, entries: draw.log() } as const
}
const labels = (draw: DrawDriver) => labelsFor(logOf(draw), labelWords({ ...SITE, texts }))
const note = (draw: DrawDriver) => writeNote(logOf(draw), noteTemplate).text

function holdsOnly(draw: DrawDriver, own: Patient, other: Patient): void {
  expect(labels(draw).map(({ given, recordNumber }) => [given, recordNumber])).toEqual([
    [own.givenNames, own.recordNumber],
    [own.givenNames, own.recordNumber],
  ])
  expect(note(draw)).toContain(own.recordNumber)
  expect(note(draw)).not.toContain(other.recordNumber)
  expect(note(draw)).not.toContain(other.fullName)
}

// That labels and records of two patients are never mixed: NPSG.01.01.01, two identifiers and labels beside the patient.
describe('two babies from the heel', () => {
  it('one after the other: each record and label has its own baby alone', () => {
    const first = heel(A, 'D7-20261125-0001')
    first.does(...WAY)
    const second = heel(B, 'D7-20261125-0002')
    second.does(...WAY)
    holdsOnly(first, A, B)
    holdsOnly(second, B, A)
  })

  it('at once, word by word in turn: nothing of one comes into the other', () => {
    const first = heel(A, 'D7-20261125-0001')
    const second = heel(B, 'D7-20261125-0002')
    for (const key of WAY) {
      first.does(key)
      second.does(key)
    }
    holdsOnly(first, A, B)
    holdsOnly(second, B, A)
    const numbers = [...labels(first), ...labels(second)].map(
      ({ specimenNumber }) => specimenNumber,
    )
    expect(new Set(numbers).size).toBe(4)
  })

  it('the label of the other baby is turned down by scan, and reads back nothing', () => {
    const first = heel(A, 'D7-20261125-0001')
    const second = heel(B, 'D7-20261125-0002')
    first.does(...WAY)
    second.does(...WAY)
    for (const { specimenNumber: text } of labels(second)) {
      const decision = first.tries({ type: 'scanLabel', text }, 'scanner')
      expect(decision.kind === 'record' && first.last().some((event) => event.type === 'labelReadBack' && event.matches)).toBe(false) // prettier-ignore
    }
    expect(Object.values(first.state().readBack)).not.toContain(true)
    for (const { specimenNumber: text } of labels(first)) {
      expect(first.tries({ type: 'scanLabel', text }, 'scanner')).toMatchObject({ kind: 'record' })
    }
    expect(Object.values(first.state().readBack)).toEqual([true, true])
  })
})

describe('twins', () => {
  it('the band of the other twin stops the draw, though name and birth date were said', () => {
    const draw = heel(A, 'D7-20261125-0001')
    draw.tries({ type: 'scanLabel', text: B.recordNumber }, 'scanner')
    expect(draw.flags()).toContain('wristbandMismatch')
    expect(draw.step()).toBe('wristband')
    draw.tries({ type: 'scanLabel', text: A.recordNumber }, 'scanner')
    expect(draw.step()).not.toBe('wristband')
  })

  it('whoever identifies is reminded that twins differ by little', () => {
    const draw = heel(A, 'D7-20261125-0001')
    const { id, points } = stepView(draw.state(), viewTexts)
    expect(id).toBe('identity')
    expect(points[0]).toMatch(/Twins differ by little: compare every letter/)
  })

  it('have labels that differ in given name, record number and specimen number', () => {
    const first = heel(A, 'D7-20261125-0001')
    const second = heel(B, 'D7-20261125-0002')
    first.does(...WAY)
    second.does(...WAY)
    const [one, other] = [labels(first)[0], labels(second)[0]]
    expect([one?.family, one?.birthDate]).toEqual([other?.family, other?.birthDate])
    expect(one?.given).not.toBe(other?.given)
    expect(one?.recordNumber).not.toBe(other?.recordNumber)
    expect(one?.specimenNumber).not.toBe(other?.specimenNumber)
  })
})
