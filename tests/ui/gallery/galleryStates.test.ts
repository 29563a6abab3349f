import { expect, test } from 'vitest'
import words from '../../../src/data/en/words.json' with { type: 'json' }
import { ASKS } from '../../../src/core/protocol/asks.ts'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import { isSevere } from '../../../src/core/protocol/exceptionTable.ts'
import { STEP_IDS } from '../../../src/core/protocol/steps.ts'
import { walkCommands } from '../../walk/walkCommands.ts'
import { nameOf } from './departures.ts'
import { gallery } from './galleryStates.ts'
import { opened } from './moment.ts'
import { SIX_TUBES } from './openings.ts'

const shown = gallery()
const views = shown.states.map(({ view }) => view)

/** Moments of a series, of which this draw is none; the walk's draw is none either. */
const OF_A_SERIES = ['drinkStarted', 'drinkFinished', 'doseGiven', 'infusionEnded']

test('every departure that the walk knows is shown', () => {
  const known = walkCommands(opened(SIX_TUBES).state).map(nameOf)
  const missing = known.filter((name) => !shown.departures.includes(name))
  expect(missing.filter((name) => !OF_A_SERIES.includes(name))).toEqual([])
})

test('every step, every question and every alarm is shown', () => {
  expect(STEP_IDS.filter((id) => !views.some(({ step }) => step.id === id))).toEqual([])
  const asked = new Set(shown.states.map(({ name }) => name))
  expect(ASKS.filter((ask) => !asked.has(`ask/${ask}`))).toEqual([])
  const severe = new Set(views.map((view) => view.severe?.kind))
  expect(EXCEPTION_KINDS.filter((kind) => isSevere(kind) && !severe.has(kind))).toEqual([])
})

test('a question that is named shows its question', () => {
  for (const { name, view } of shown.states.filter((state) => state.name.startsWith('ask/'))) {
    const [, end] = words.asks[name.slice(4) as keyof typeof words.asks].split(/\{tube\}/)
    expect(view.ask?.question, name).toContain(
      end ?? words.asks[name.slice(4) as keyof typeof words.asks],
    )
  }
})

test('no two states have one name', () => {
  const names = shown.states.map(({ name }) => name)
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([])
})
