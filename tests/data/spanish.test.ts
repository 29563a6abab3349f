import { describe, expect, it } from 'vitest'
import { scriptTexts } from '../../scripts/schemas/practiceSchema.ts'
import { ALARMING } from '../../src/app/site/words.ts'
import { readNoteTemplate } from '../../src/core/record/readNoteTemplate.ts'
import { texts as english } from '../../src/data/en/texts.ts'
import englishPrompts from '../../src/data/en/prompts.json' with { type: 'json' }
import englishWords from '../../src/data/en/words.json' with { type: 'json' }
import { LANGUAGE_FILES } from '../../src/data/languages.ts'
import { englishScripts } from '../support/scripts.ts'

const spanish = LANGUAGE_FILES.es

/**
 * Rightly the same in both languages: names and codes, units, forms that only join what is filled in, what machines read
 * (columns and names of files), and words that Spanish has too.
 */
const SAME_PATHS =
  /(\$schema|askedByPatients|\.fileName|\.csv\.|progress\.(columns|mark)|language\.names\.|sections\.\d+\.each|text\.characters\.|\.symbol)/
const SAME_WORDS =
  /^(Stillhand|Esc|PIN|No|no|Alcohol|alcohol|plasma|Total|Hash|Control|Central|Rotor|rotor|HTTP|SVG|each|A4|Code 128|error|Error|Final|final|Normal|normal|Digital|Manual)$/

/** What the practice scripts have in English, in the shape of the file of another language. */
const practice = {
  scripts: Object.fromEntries(
    englishScripts.map(({ id, scenario: { title, about } }) => [id, { title, about }]),
  ),
  lines: Object.fromEntries(scriptTexts().lines.map((line) => [line, line])),
}
const ENGLISH = { ...english, words: englishWords, prompts: englishPrompts, practice }
const { $schema: _s, language: _l, ...spanishPractice } = { $schema: '', ...spanish.practice! }
const SPANISH = {
  ...spanish.texts,
  words: spanish.words,
  prompts: spanish.prompts,
  practice: spanishPractice,
}

/** Every text by its path: `screens.home.title`. */
function leaves(value: unknown, path = ''): [string, string][] {
  if (typeof value === 'string') return [[path, value]]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, each]) => leaves(each, path ? `${path}.${key}` : key))
}
const named = (text: string): string => [...text.matchAll(/\{\w+\}/g)].map(String).sort().join()
const said = (text: string): string =>
  [...text.matchAll(/["“]([a-z]+(?: [a-z]+)+)["”]/g)].map(([, phrase]) => phrase).join()
const digits = (text: string): string =>
  [...text.matchAll(/\d+(?:[.,]\d+)?/g)]
    .map(([n]) => n.replace(',', '.'))
    .sort()
    .join()

const pairs = (): readonly [path: string, english: string, spanish: string][] => {
  const from = leaves(ENGLISH)
  const to = new Map(leaves(SPANISH))
  return from.map(([path, text]) => [path, text, to.get(path) ?? '(missing)'])
}

describe('the Spanish texts', () => {
  it('are there for every English one, and for nothing else', () => {
    const from = leaves(ENGLISH)
    const to = leaves(SPANISH)
    expect(to.map(([path]) => path).sort()).toEqual(from.map(([path]) => path).sort())
    expect(from.length).toBeGreaterThan(3000)
  })

  it('are filled in with the same values', () => {
    expect(pairs().filter(([, en, es]) => named(en) !== named(es))).toEqual([])
  })

  it('name the same numbers: minutes, sides of a limit, counts', () => {
    const wrong = pairs().filter(([, en, es]) => digits(en) !== digits(es))
    expect(wrong).toEqual([])
  })

  it('keep what is said aloud in English, since no other speech is understood', () => {
    expect(pairs().filter(([, en, es]) => said(en) !== said(es))).toEqual([])
  })

  it('leave no English standing', () => {
    const same = pairs().filter(
      ([path, en, es]) =>
        en === es &&
        /[A-Za-z]{3}/.test(en.replace(/\{\w+\}|\bmin\b/g, '')) &&
        !SAME_PATHS.test(path) &&
        !SAME_WORDS.test(en),
    )
    expect(same.map(([path, en]) => `${path}: ${en}`)).toEqual([])
  })

  it('hold a note that reads, with the sections of the English one', () => {
    const note = readNoteTemplate(spanish.texts.note)
    expect(note.sections.map(({ each }) => each)).toEqual(
      english.note.sections.map(({ each }) => each),
    )
  })

  // Common practice, no source: a question with both marks, and one question only.
  it('ask aloud one question, and then whether yes or no', () => {
    const asks = Object.entries(spanish.prompts.prompts).filter(([key]) =>
      /^(discreet\.)?ask\./.test(key),
    )
    expect(asks.length).toBeGreaterThan(15)
    for (const [key, text] of asks) expect(text, key).toMatch(/^¿[^?]+\? ¿Sí o no\?$/)
  })

  it('say what alarms as a code, by the same number as in English', () => {
    const NUMBERS = ['un[oa]', 'dos', 'tres', 'cuatro', 'cinco', 'seis', 'siete', 'ocho', 'nueve', 'diez', 'once'] // prettier-ignore
    const CODES = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven'] // prettier-ignore
    const prompts: Readonly<Record<string, string | undefined>> = spanish.prompts.prompts
    const from: Readonly<Record<string, string | undefined>> = englishPrompts.prompts
    for (const key of ALARMING) {
      const [, code] = /code (\w+)/i.exec(from[`discreet.${key}`] ?? '') ?? []
      const number = NUMBERS[CODES.indexOf(code ?? '')] ?? 'none'
      expect(prompts[`discreet.${key}`], key).toMatch(new RegExp(`código ${number}\\b`, 'i'))
    }
  })
})
