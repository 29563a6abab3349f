import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import * as v from 'valibot'
import { allWordings } from '../../src/app/site/phraseBook.ts'
import { isTranslated } from '../../src/app/site/practiceTexts.ts'
import { readScenario } from '../../src/core/scenario/readScenario.ts'
import { scenarioVocabulary } from '../../src/core/scenario/vocabulary.ts'
import phrases from '../../src/data/en/phrases.json' with { type: 'json' }
import words from '../../src/data/en/words.json' with { type: 'json' }
import { LANGUAGE, PLAIN_TEXT, SCHEMA_LINK } from './textsLike.ts'

const SCRIPTS = join(import.meta.dirname, '..', '..', 'src', 'data', 'scenarios')

/** What the scripts have to be translated: their names, and every sentence once. Throws where one does not read. */
export function scriptTexts(): {
  readonly ids: readonly string[]
  readonly lines: readonly string[]
} {
  const vocabulary = scenarioVocabulary(allWordings(phrases), words.commands)
  const files = readdirSync(SCRIPTS)
    .filter((file) => file.endsWith('.txt'))
    .sort()
  const lines = files.flatMap((file) => {
    const reading = readScenario(readFileSync(join(SCRIPTS, file), 'utf8'), vocabulary)
    if (!reading.ok) throw new Error(`The script ${file} does not read.`)
    const { lines: first, later = [] } = reading.value
    const all = [first, ...later.map((part) => part.lines)].flat()
    return all.flatMap((line) => (isTranslated(line) && 'text' in line ? [line.text] : []))
  })
  return { ids: files.map((file) => file.slice(0, -4)), lines: [...new Set(lines)].sort() }
}

/** How a script stands in the list. */
export const PRACTICE_NAME = v.strictObject({ title: PLAIN_TEXT, about: PLAIN_TEXT })

/**
 * The practice scripts in a language other than their own: a sentence that is changed in a script is missing here until
 * it is translated anew.
 */
export function practiceSchema() {
  const { ids, lines } = scriptTexts()
  return v.strictObject({
    ...SCHEMA_LINK,
    language: LANGUAGE,
    scripts: v.strictObject(Object.fromEntries(ids.map((id) => [id, PRACTICE_NAME]))),
    lines: v.strictObject(Object.fromEntries(lines.map((line) => [line, PLAIN_TEXT]))),
  })
}
