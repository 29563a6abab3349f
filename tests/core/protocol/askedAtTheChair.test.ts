import { describe, expect, it } from 'vitest'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { pressureNeeded_s } from '../../../src/core/protocol/facts.ts'
import { STEPS } from '../../../src/core/protocol/steps.ts'
import { unexplained } from '../../../src/core/log/sense/unexplained.ts'
import { drawDriver, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { sampleOpening } from '../../support/sampleLog.ts'

const { faintedBefore: _fainted, ...preparation } = sampleOpening().preparation

/** An order that says nothing of blood thinners and fainting. */
function nothingAsked(): DrawDriver {
  const draw = drawDriver({ preparation: { ...preparation, anticoagulant: 'notAsked' } })
  draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation')
  return draw
}

const logOf = (draw: DrawDriver) =>
  ({
    format: 'stillhand-log',
    version: 1,
    drawId: draw.state().opened.drawId,
    entries: draw.log(),
  }) as const

describe('blood thinner and fainting, where the order left them open', () => {
  it('are asked before the supplies, one after the other', () => {
    const draw = nothingAsked()
    expect(draw.step()).toBe('thinner')
    draw.does('thinner:other')
    expect(draw.last()).toEqual([{ type: 'answerTaken', answer: { anticoagulant: 'other' } }])
    expect(draw.step()).toBe('fainted')
    draw.does('faintedYes')
    expect(draw.step()).toBe('supplies')
    expect(factsOf(logOf(draw)).answers).toMatchObject({
      anticoagulant: 'other',
      faintedBefore: true,
    })
    expect(unexplained(logOf(draw))).toEqual([])
  })

  // Space is the main choice: pressed without a thought it would chart an answer that nobody gave.
  it('no question that takes an answer has a main choice', () => {
    const answers = ['latex', 'thinner', 'fainted', 'born', 'feeding', 'transfused']
    const rows = STEPS.filter(({ id }) => answers.includes(id))
    expect(rows.map(({ id, main }) => [id, main])).toEqual(answers.map((id) => [id, undefined]))
  })

  it('are passed by going on, and are then charted as not asked', () => {
    const draw = nothingAsked()
    draw.does('confirmSupplies')
    expect(draw.step()).toBe('hands')
    expect(writeNote(logOf(draw), noteTemplate).text).toMatch(/^ *Anticoagulant: not asked/im)
  })

  it('are not asked again where the order has them', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation')
    expect(draw.step()).toBe('supplies')
  })

  // Five minutes under a blood thinner (Geriatr Nurs 2026;69:103918), two without (patient leaflet); for who was never
  // asked the usual time, for who does not know the longer one (common practice, no source).
  it.each([
    ['thinner:none', 120],
    ['thinner:heparin', 300],
    ['thinner:other', 300],
    ['thinner:unknown', 300],
    [undefined, 120],
  ] as const)('%s: %i s of pressure', (key, seconds) => {
    const draw = nothingAsked()
    if (key) draw.does(key)
    expect(pressureNeeded_s(draw.state())).toBe(seconds)
  })
})

describe('consent', () => {
  it.each([
    ['confirmConsent', 'patient', 'spoken', 'by the patient, spoken'],
    ['consentFrom:written', 'patient', 'written', 'by the patient, written'],
    ['consentFrom:implied', 'patient', 'implied', 'by the patient, implied'],
    ['consentFrom:guardian', 'guardian', 'spoken', 'by parent or guardian, spoken'],
    ['consentFrom:guardianWritten', 'guardian', 'written', 'by parent or guardian, written'],
    ['consentFrom:interpreter', 'interpreter', 'spoken', 'through an interpreter, spoken'],
  ] as const)('%s is charted with who and how', (key, by, form, words) => {
    const draw = drawDriver()
    draw.does('confirmPatient', key)
    expect(draw.last()).toEqual([{ type: 'consentGiven', by, form }])
    expect(draw.step()).toBe('preparation')
    expect(writeNote(logOf(draw), noteTemplate).text).toContain(words)
    expect(unexplained(logOf(draw))).toEqual([])
    expect(draw.tries(key)).toEqual({ kind: 'impossible', why: 'alreadyDone' })
  })
})
