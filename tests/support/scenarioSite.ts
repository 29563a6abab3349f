import { readdirSync, readFileSync } from 'node:fs'
import { planAgain } from '../../src/app/draw/planAgain.ts'
import { siteCatalogue } from '../../src/app/site/catalogue/siteCatalogue.ts'
import type { Policy } from '../../src/core/policy/policy.ts'
import { nextSitting } from '../../src/core/record/nextSitting.ts'
import { seriesOf } from '../../src/core/record/seriesRecord.ts'
import { openScenario, type ScenarioSite } from '../../src/core/scenario/openScenario.ts'
import { readScenario } from '../../src/core/scenario/readScenario.ts'
import { runScenario, type ScenarioRun } from './runScenario.ts'
import type { Scenario, ScenarioReading } from '../../src/core/scenario/scenario.ts'
import type { ScenarioWords } from './scenarioWords.ts'
import { scenarioVocabulary } from '../../src/core/scenario/vocabulary.ts'
import type { DrawState } from '../../src/core/protocol/state.ts'
import type { NoteTemplate } from '../../src/core/record/noteTemplate.ts'
import demoJson from '../../src/data/demo.json' with { type: 'json' }
import noteJson from '../../src/data/en/note.json' with { type: 'json' }
import phrasesJson from '../../src/data/en/phrases.json' with { type: 'json' }
import policyJson from '../../src/data/policy.json' with { type: 'json' }
import promptsJson from '../../src/data/en/prompts.json' with { type: 'json' }
import wordsJson from '../../src/data/en/words.json' with { type: 'json' }
import { texts } from '../../src/data/en/texts.ts'
import { sha256 } from './sampleLog.ts'

const data = new URL('../../src/data/', import.meta.url)
const catalogueText = (name: string): string =>
  readFileSync(new URL(`catalogue/${name}`, data), 'utf8')

const policy = policyJson as unknown as Policy

/** The shipped data files as a site. */
export const scenarioSite: ScenarioSite = {
  ...siteCatalogue(
    {
      tests: catalogueText('tests.csv'),
      tubes: catalogueText('tubes.csv'),
      stock: catalogueText('stock.csv'),
      norms: catalogueText('norms.json'),
      preferences: catalogueText('preferences.json'),
      series: catalogueText('series.json'),
      search: catalogueText('search.json'),
      bloodLimits: catalogueText('bloodLimits.json'),
      laboratories: catalogueText('laboratories.json'),
    },
    texts,
  ),
  texts,
  defaultPolicy: policy,
  policy,
  demo: demoJson as unknown as ScenarioSite['demo'],
}

const scenarioWords: ScenarioWords = {
  ...wordsJson,
  prompts: promptsJson.prompts,
  note: noteJson as unknown as NoteTemplate,
}

const vocabulary = scenarioVocabulary(phrasesJson.phrases, wordsJson.commands)

export const readScript = (text: string): ScenarioReading => readScenario(text, vocabulary)

/** Every scenario file, `name` without its ending. */
export function scenarioFiles(): readonly { readonly name: string; readonly text: string }[] {
  const folder = new URL('scenarios/', data)
  return readdirSync(folder)
    .filter((file) => file.endsWith('.txt'))
    .sort()
    .map((file) => ({ name: file.slice(0, -4), text: readFileSync(new URL(file, folder), 'utf8') }))
}

const AS = { device: 'D7', today: '2026-11-25' }

const again = (s: DrawState) => planAgain(s, scenarioSite, AS.today, undefined)

const drawIdOf = (number: number): string => `D7-20261125-${String(number).padStart(4, '0')}`

/** @param number of the draw within its day */
export function playScenario(scenario: Scenario, number = 3): ScenarioRun {
  const opening = openScenario(scenario, scenarioSite, { ...AS, drawId: drawIdOf(number) })
  return runScenario(scenario, opening, scenarioWords, sha256, undefined, again)
}

/** The draws of a script one after the other, each opened from the records of those before, as the app does. */
export function playSeries(scenario: Scenario, first = 3): readonly ScenarioRun[] {
  const runs = [playScenario(scenario, first)]
  for (const [index, { after_ms, lines }] of (scenario.later ?? []).entries()) {
    const series = seriesOf(runs.map(({ log }) => log))
    const sitting = series?.sittings[index + 1]
    const before = runs.at(-1)?.end
    if (!series || !sitting || !before) throw new Error(`The series has no draw ${index + 2}.`)
    const start = {
      ...before,
      wall_ms: before.wall_ms + after_ms,
      mono_ms: before.mono_ms + after_ms,
    }
    const drawId = drawIdOf(first + 1 + index)
    const next = nextSitting(series, sitting)
    const opening = openScenario(scenario, scenarioSite, { ...AS, drawId, sitting: next })
    runs.push(runScenario({ lines }, opening, scenarioWords, sha256, start, again))
  }
  return runs
}
