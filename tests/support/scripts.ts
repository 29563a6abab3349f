import type { NamedScenario } from '../../src/app/site/namedScenario.ts'
import { readScenarios } from '../../src/app/site/readScenarios.ts'
import phrases from '../../src/data/en/phrases.json'
import { LANGUAGE_FILES } from '../../src/data/languages.ts'
import { LANGUAGE } from './language.ts'

const files = import.meta.glob<string>('../../src/data/scenarios/*.txt', {
  query: '?raw',
  import: 'default',
  eager: true,
})
const english = { phrases, words: LANGUAGE_FILES.en.words }

/** The shipped practice scripts as they are written. */
export const englishScripts: readonly NamedScenario[] = readScenarios(files, english)

/** The shipped practice scripts in the language of the tests. */
export const shippedScripts: readonly NamedScenario[] = readScenarios(
  files,
  english,
  LANGUAGE_FILES[LANGUAGE],
)

/** One of them by the name of its file. */
export function shippedScript(id: string): NamedScenario {
  const found = shippedScripts.find((named) => named.id === id)
  if (!found) throw new Error(`There is no script ${id}.`)
  return found
}
