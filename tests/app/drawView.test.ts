import { expect, it } from 'vitest'
import { drawView, type ViewContext } from '../../src/app/drawView.ts'
import type { DrawView } from '../../src/app/views.ts'
import book from '../../src/data/phrases.en.json' with { type: 'json' }
import prompts from '../../src/data/prompts.en.json' with { type: 'json' }
import words from '../../src/data/words.en.json' with { type: 'json' }
import { drawDriver, type DrawDriver } from '../support/drawDriver.ts'

const context: ViewContext = {
  words,
  prompts,
  phrases: book,
  testName: (code) => code,
  listening: { state: { kind: 'off' }, level: 0 },
}
const viewOf = (draw: DrawDriver): DrawView => {
  const view = drawView(draw.state(), draw.now(), context)
  if (!view) throw new Error('The draw is not open.')
  return view
}

it('shows the birth date so that day and month cannot be mistaken', () => {
  const { identifiers, patientLine } = viewOf(drawDriver())
  expect(identifiers.find(({ label }) => label === 'Birth date')?.value).toBe('29 Feb 1980')
  expect(patientLine).toContain('born 29 Feb 1980')
})
