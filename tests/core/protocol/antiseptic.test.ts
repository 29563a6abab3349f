import { describe, expect, it } from 'vitest'
import { antisepticFor, dryingNeeded_s } from '../../../src/core/protocol/antisepticChoice.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, TO_HANDS, twoTubes, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

const preparation = sampleOpening().preparation

function toSite(draw: DrawDriver): void {
  draw.does(...TO_HANDS, 'chooseArm:left', 'chooseVein:medianCubital')
}

describe('the antiseptic', () => {
  it('is 70 % alcohol where nobody says otherwise, and is charted', () => {
    const draw = drawDriver()
    toSite(draw)
    draw.does('skinClean')
    expect(draw.last()).toEqual([{ type: 'skinCleaned', with: 'alcohol' }])
  })

  it.each([
    // Little 1999, Am J Med 107:119, as abstracted in Am Fam Physician 2000;61:1120: two minutes.
    ['skinCleanWith:povidoneIodine', 120],
    // Common practice for alcohol; chlorhexidine in alcohol second-hand from guidelines.
    ['skinCleanWith:alcohol', 30],
    ['skinCleanWith:chlorhexidineAlcohol', 30],
  ] as const)('has a drying time of its own: %s, %i s', (key, seconds) => {
    const draw = drawDriver()
    toSite(draw)
    draw.does(key)
    expect(dryingNeeded_s(draw.state())).toBe(seconds)
    expect(clocksOf(draw.state()).find(({ kind }) => kind === 'drying')?.length_ms).toBe(
      seconds * 1000,
    )
    draw.advance((seconds - 3) * 1000)
    draw.does('skinDry')
    expect(draw.flags()).toEqual(['skinNotDry'])
  })

  it('is free of alcohol where a test of the order measures alcohol', () => {
    // "Do not cleanse with alcohol": handbook pages of three laboratories for ethanol.
    const plan = { ...twoTubes, tubes: twoTubes.tubes.map((tube) => ({ ...tube, handling: ['noAlcohol' as const] })) } // prettier-ignore
    const draw = drawDriver({ plan })
    toSite(draw)
    expect(antisepticFor(draw.state())).toBe('alcoholFree')
    draw.does('skinCleanWith:alcohol')
    expect(draw.flags()).toEqual(['wrongAntiseptic'])
    draw.does('skinClean')
    expect(draw.flags()).toEqual(['wrongAntiseptic'])
    expect(draw.last()).toEqual([{ type: 'skinCleaned', with: 'alcoholFree' }])
  })

  it.each([
    ['none', 'chlorhexidineAlcohol'],
    ['chlorhexidine', 'povidoneIodine'],
    ['alcohol', 'povidoneIodine'],
    ['iodine', 'chlorhexidineAlcohol'],
  ] as const)('for a culture follows the allergy %s: %s', (antisepticAllergy, expected) => {
    const bottle = { ...sampleTube('t1', 'cultureAerobic'), role: 'culture' as const }
    const plan = samplePlan([bottle])
    const draw = drawDriver({ plan, preparation: { ...preparation, antisepticAllergy } })
    expect(antisepticFor(draw.state())).toBe(expected)
  })

  it('is flagged where the patient is allergic to it, also when that was asked only at the chair', () => {
    const draw = drawDriver({ preparation: { ...preparation } })
    draw.does('confirmPatient', 'confirmConsent', 'antisepticAllergy:iodine', 'confirmPreparation')
    draw.does('confirmSupplies', 'confirmHands', 'chooseArm:left', 'chooseVein:hand')
    draw.does('skinCleanWith:povidoneIodine')
    expect(draw.flags()).toEqual(['wrongAntiseptic'])
  })

  it('minds two allergies at once, told one after the other; "none" takes their place and they its', () => {
    const { antisepticAllergy: _asked, ...open } = { antisepticAllergy: undefined, ...preparation }
    const draw = drawDriver({ preparation: open })
    draw.does('confirmPatient', 'confirmConsent', 'antisepticAllergy:none')
    draw.does('antisepticAllergy:iodine', 'antisepticAllergy:chlorhexidine')
    expect(draw.last()).toEqual([
      { type: 'answerTaken', answer: { antisepticAllergy: ['iodine', 'chlorhexidine'] } },
    ])
    expect(draw.tries('antisepticAllergy:iodine')).toEqual({
      kind: 'impossible',
      why: 'alreadyDone',
    })
    draw.does('confirmPreparation', 'confirmSupplies', 'confirmHands', 'chooseArm:left')
    draw.does('chooseVein:hand', 'skinCleanWith:chlorhexidineAlcohol')
    draw.does('skinCleanWith:povidoneIodine')
    expect(draw.flags()).toEqual(['wrongAntiseptic', 'wrongAntiseptic'])
    draw.does('antisepticAllergy:none')
    expect(draw.last()).toEqual([{ type: 'answerTaken', answer: { antisepticAllergy: 'none' } }])
  })

  it('has no usual one where the allergy is to something else: whoever cleans says which', () => {
    const draw = drawDriver({ preparation: { ...preparation, antisepticAllergy: 'other' } })
    toSite(draw)
    expect(draw.open().main).toBeUndefined()
    expect(draw.open().step).not.toContain('skinClean')
    expect(draw.tries('skinClean')).toEqual({ kind: 'impossible', why: 'cleanerUnnamed' })
    draw.does('skinCleanWith:alcohol')
    expect(draw.step()).toBe('dry')
  })

  // "Use with care in premature infants or infants under 2 months of age": the drug label of chlorhexidine
  // gluconate, read in a public label database. The sample draw is of 2026-11-25.
  it.each([
    ['2026-09-26', 'povidoneIodine', ['infantChlorhexidine']],
    ['2026-09-25', 'chlorhexidineAlcohol', []],
  ] as const)('of a culture, born %s: %s first', (birthDate, first, flags) => {
    const bottle = { ...sampleTube('t1', 'cultureAerobic'), role: 'culture' as const }
    const patient = { ...sampleOpening().patient, birthDate }
    const draw = drawDriver({ plan: samplePlan([bottle]), patient })
    toSite(draw)
    expect(antisepticFor(draw.state())).toBe(first)
    draw.does('skinCleanWith:chlorhexidineAlcohol')
    expect(draw.flags()).toEqual(flags)
  })

  it('starts anew with another site', () => {
    const draw = drawDriver()
    toSite(draw)
    draw.does('skinClean', 'chooseArm:right')
    expect(draw.state().puncture.cleanedWith).toBeUndefined()
  })
})

describe('a needle before the skin is dry', () => {
  it('is a risk for the tubes of that puncture, and not of the next', () => {
    const draw = drawDriver()
    toSite(draw)
    draw.does('skinClean', 'bandOn', 'needleIn', 'flashSeen', 'tubeOn', 'bandOff', 'tubeFull')
    draw.does('tubeMixed', 'tubeOn', 'tubeFull', 'tubeMixed')
    const { drawId } = draw.state().opened
    const log = { format: 'stillhand-log', version: 1, drawId, entries: draw.log() } as const
    const wet = specimenRisks(log, texts.record).filter(({ code }) => code === 'wetSkin')
    expect(wet.map(({ tubeIds }) => tubeIds)).toEqual([['t1', 't2']])
  })
})

describe('latex', () => {
  const { latexAllergy: _asked, ...notAsked } = preparation

  it('is asked before the supplies where the order left it open', () => {
    const draw = drawDriver({ preparation: notAsked })
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation')
    expect(draw.step()).toBe('latex')
    draw.does('latexNo')
    expect(draw.last()).toEqual([{ type: 'answerTaken', answer: { latexAllergy: false } }])
    expect(draw.step()).toBe('supplies')
  })

  it('is not asked twice', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation')
    expect(draw.step()).toBe('supplies')
  })
})
