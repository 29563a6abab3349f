import { describe, expect, it } from 'vitest'
import { shownPrompt } from '../../../src/app/view/promptKeys.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import {
  drawDriver,
  nextByTheScreen,
  toNeedleIn,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import { viewOf } from '../../support/viewTexts.ts'

describe('the instruction', () => {
  it.each([
    ['edtaK2', 'EDTA tube next.'],
    ['acd', 'ACD tube next.'],
    ['citrate', 'Citrate tube next.'],
  ] as const)('for a tube with %s is "%s"', (additive, text) => {
    const draw = drawDriver({ plan: samplePlan([sampleTube('t1', additive)]) })
    toNeedleIn(draw)
    draw.does('flashSeen')
    expect(viewOf(draw).step.instruction).toBe(text)
  })

  it('never spells letters that are one word to the eye', () => {
    const shown = Object.keys(prompts.prompts).map((key) => shownPrompt(key, prompts))
    expect(shown.filter((text) => /\b[A-Z] [A-Z]\b/.test(text))).toEqual([])
    expect(Object.keys(prompts.shown).filter((key) => !(key in prompts.prompts))).toEqual([])
  })
})

it('shows the birth date so that day and month cannot be mistaken', () => {
  const { identifiers, patientLine } = viewOf(drawDriver())
  expect(identifiers.find(({ label }) => label === 'Birth date')?.value).toBe('29 Feb 1980')
  expect(patientLine).toContain('born 29 Feb 1980')
})

describe('what was answered before the draw', () => {
  const preparation = {
    anticoagulant: 'unknown',
    latexAllergy: false,
    faintedBefore: true,
    restrictions: { left: 'nodeRemoval', right: 'fistula' },
  } as const

  it('is told in words, not in codes', () => {
    const draw = drawDriver({ preparation })
    draw.does('confirmPatient', 'confirmConsent')
    expect(viewOf(draw).step.points).toEqual([
      'Fasting: not asked',
      'Blood thinner: not known',
      'Latex allergy: no',
      'Antiseptic allergy: not asked yet',
      'Fainted before: let the patient lie down',
      'Gum, food or a thermometer out of the mouth.',
    ])
    draw.does('confirmPreparation', 'confirmSupplies', 'confirmHands')
    expect(viewOf(draw).step.points.slice(0, 2)).toEqual([
      'Not the left arm: lymph nodes removed',
      'Not the right arm: fistula or graft',
    ])
  })
})

describe('every text of the screen', () => {
  const noneIsEmpty = (draw: DrawDriver): void => {
    expect(JSON.stringify(viewOf(draw)).match(/\{\w+\}/g)).toBeNull()
  }

  it.each(['', 'faint', 'flowLost', 'needlestick', 'noFlash', 'droppedTube'] as const)(
    'has its values in it, at every step of a draw with trouble: "%s"',
    (trouble) => {
      const tubes = [sampleTube('t1', 'activatorGel'), sampleTube('t2', 'citrate')]
      const draw = drawDriver({ plan: samplePlan(tubes) })
      const steps = new Set<string>()
      for (let i = 0; i < 60 && !draw.state().closed; i++) {
        noneIsEmpty(draw)
        steps.add(draw.step())
        const [asked] = nextByTheScreen(draw.state())
        if (!asked) throw new Error(`nothing to do at ${draw.step()}`)
        draw.advance(20_000)
        noneIsEmpty(draw)
        draw.tries(asked)
        if (trouble && i > 10 && i % 5 === 0) draw.tries(trouble)
      }
      noneIsEmpty(draw)
      expect(steps.size).toBeGreaterThan(15)
    },
  )
})
