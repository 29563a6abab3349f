import { describe, expect, it } from 'vitest'
import { shownPrompt } from '../../../src/app/view/promptKeys.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { drawDriver, toNeedleIn } from '../../support/drawDriver.ts'
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
