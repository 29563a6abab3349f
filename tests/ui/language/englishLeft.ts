import { isRecord } from '../../../src/core/basics/isRecord.ts'
import { LANGUAGE_FILES } from '../../../src/data/languages.ts'
import { isTranslated } from '../../../src/app/site/practiceTexts.ts'
import betweenPhrases from '../../../src/data/en/betweenPhrases.json' with { type: 'json' }
import phrases from '../../../src/data/en/phrases.json' with { type: 'json' }
import { englishScripts } from '../../support/scripts.ts'

/** A text in pieces between what is filled into it; one short word may be of both languages. */
const pieces = (text: string): readonly string[] =>
  text
    .split(/\{\w+\}/)
    .map((piece) => piece.replace(/^[\s.,;:()·]+|[\s.,;:()·]+$/g, ''))
    .filter((piece) => piece.length > 3 && /\p{L}{3}/u.test(piece))

/** Every text in a value by its place. */
export function leaves(
  value: unknown,
  path = '',
): readonly (readonly [path: string, text: string])[] {
  if (typeof value === 'string') return [[path, value]]
  if (Array.isArray(value)) return value.flatMap((each, i) => leaves(each, `${path}/${i}`))
  if (isRecord(value)) return Object.entries(value).flatMap(([k, v]) => leaves(v, `${path}/${k}`))
  return []
}

const spanish = new Set(leaves(LANGUAGE_FILES.es).flatMap(([, text]) => pieces(text)))
/** What is said in every language, and what names a thing of the outside. */
const sameInBoth = new Set([
  ...leaves([phrases, betweenPhrases]).map(([, text]) => text.toLowerCase()),
  'english',
])
/** The practice scripts as they are written: title, description, and what is told and written in them. */
const scripts = englishScripts.map(({ scenario: { title, about, lines, later = [] } }) => [
  title,
  about,
  ...[lines, ...later.map((part) => part.lines)]
    .flat()
    .map((line) => (isTranslated(line) && 'text' in line ? line.text : '')),
])
const english = new Map(
  leaves({ ...LANGUAGE_FILES.en, scripts })
    .filter(([path]) => !/\/(\$schema|language)$/.test(path))
    .flatMap(([path, text]) => pieces(text).map((piece) => [piece, path] as const))
    .filter(([piece]) => !spanish.has(piece) && !sameInBoth.has(piece.toLowerCase())),
)

/**
 * Where one of our English texts stands in what is shown: the whole of it, or three words of it and more.
 * @param given what is none of ours: names and sources of the catalog, what a person typed
 */
export function englishLeft(
  shown: Iterable<string>,
  given: readonly string[] = [],
): readonly string[] {
  const notOurs = [...new Set(given.map((each) => each.trim()))].filter((each) => each.length > 3)
  const whole = new Set(notOurs)
  const found = new Set<string>()
  for (const text of new Set(shown)) {
    if (whole.has(text.trim())) continue
    const place = englishIn(text)
    if (place === undefined) continue
    // Looked at again without what was filled into it.
    const own = notOurs.reduce((left, each) => left.replaceAll(each, ' '), text)
    if (englishIn(own) !== undefined) found.add(`${place}: ${text}`)
  }
  return [...found]
}

const long = [...english].filter(([piece]) => piece.split(' ').length > 2)

function englishIn(text: string): string | undefined {
  const places = [text.trim(), ...pieces(text)].map((part) => english.get(part))
  const held = long.find(([piece]) => text.includes(piece))
  return places.find((place) => place !== undefined) ?? held?.[1]
}
