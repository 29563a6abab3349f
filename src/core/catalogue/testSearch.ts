import type { TestRow, TubeRow } from './catalogue.ts'
import type { SearchWords } from './searchWords.ts'
import type { Orderable } from './series.ts'

/**
 * How a test fits what was typed, best first: one of its names is just that; begins with it; has words that begin with
 * the typed words; the names taken together have; the closure words of its tubes as well; the typed stands within a
 * word, or runs over from one word into the next. `offered`: nothing was typed.
 */
export const FITS = ['equal', 'begins', 'wordBegins', 'wordsBegin', 'closure', 'within'] as const
export type Fit = (typeof FITS)[number] | 'offered'

export interface FoundTest {
  readonly test: Orderable
  readonly fit: Fit
  /** Words of the closures of its tubes, where it was found by them. */
  readonly closures: readonly string[]
}

/** What is searched. */
interface Searched {
  readonly tests: readonly (Orderable & Pick<Partial<TestRow>, 'accepts'>)[]
  readonly tubes: readonly TubeRow[]
  readonly search?: SearchWords
}

/** Less of a word than this within another word says nothing. */
const WITHIN_LETTERS = 3

/**
 * A search over tests by name, alias, code, the trade's short names and the closures of their tubes. A match at the
 * beginning of a word never stands below one within a word. Nothing typed gives every test, the common ones first.
 */
export function createTestSearch({
  tests,
  tubes,
  search,
}: Searched): (typed: string) => readonly FoundTest[] {
  const common = new Map((search?.common ?? []).map((code, place) => [code, place]))
  const placeOf = (code: string): number => common.get(code) ?? common.size
  const indexed = tests.map((test) => {
    const meant = (search?.names ?? []).filter((name) => name.tests.includes(test.code))
    const names = [
      test.name,
      ...test.aliases,
      test.code,
      test.localCode ?? '',
      ...meant.flatMap(({ words }) => words),
    ]
    const accepted = new Set(test.accepts?.map(({ additive }) => additive))
    const closures = [
      ...new Set(tubes.filter((tube) => accepted.has(tube.additive)).map(({ closure }) => closure)),
    ]
    const placesByWord = new Map(
      meant.flatMap((name) =>
        name.words.map((word) => [wordsOf(word).compact, name.tests.indexOf(test.code)] as const),
      ),
    )
    const place = (typed: Words): number => placesByWord.get(typed.compact) ?? placeOf(test.code)
    return {
      test,
      names: names.flatMap(spellings),
      closures,
      caps: closures.flatMap(spellings),
      place,
    }
  })
  return (text) => {
    const typed = wordsOf(text)
    if (typed.compact === '') {
      return [...tests]
        .sort((a, b) => placeOf(a.code) - placeOf(b.code))
        .map((test) => ({ test, fit: 'offered', closures: [] }))
    }
    return indexed
      .flatMap(({ test, names, closures, caps, place }) => {
        const fit = fitOf(typed, names, caps)
        return fit
          ? [
              {
                test,
                fit,
                closures: fit === 'closure' ? capsIn(closures, typed) : [],
                place: place(typed),
              },
            ]
          : []
      })
      .sort(
        (a, b) =>
          FITS.indexOf(a.fit) - FITS.indexOf(b.fit) ||
          a.place - b.place ||
          a.test.name.localeCompare(b.test.name),
      )
      .map(({ test, fit, closures }) => ({ test, fit, closures }))
  }
}

const capsIn = (closures: readonly string[], typed: Words): readonly string[] =>
  closures.filter((closure) =>
    wordsOf(closure).words.some((word) => typed.words.some((part) => word.startsWith(part))),
  )

function fitOf(
  typed: Words,
  names: readonly Words[],
  caps: readonly Words[],
): (typeof FITS)[number] | undefined {
  if (names.some(({ compact }) => compact === typed.compact)) return 'equal'
  if (names.some(({ spaced }) => spaced.startsWith(typed.spaced))) return 'begins'
  const allBegin = (words: readonly string[]): boolean =>
    typed.words.every((part) => words.some((word) => word.startsWith(part)))
  if (names.some(({ words }) => allBegin(words))) return 'wordBegins'
  const all = names.flatMap(({ words }) => words)
  if (allBegin(all)) return 'wordsBegin'
  if (allBegin([...all, ...caps.flatMap(({ words }) => words)])) return 'closure'
  const within = typed.words.every((part) =>
    all.some((word) =>
      part.length < WITHIN_LETTERS ? word.startsWith(part) : word.includes(part),
    ),
  )
  const runsOn = names.some(({ compact }) => compact.startsWith(typed.compact))
  return within || runsOn ? 'within' : undefined
}

interface Words {
  readonly words: readonly string[]
  readonly spaced: string
  /** Without the spaces: `U & E` is `ue`. */
  readonly compact: string
}

/** A name in the one spelling and as it is written: who has typed `ha` so far may go on to `haemoglobin`. */
const spellings = (text: string): readonly Words[] => [wordsOf(text), wordsAsWritten(text)]

/**
 * Lower case, without accents or signs, in one spelling: `haemoglobin` and `hemoglobin` are one word, as are
 * `oestradiol` and `estradiol`, `sulphate` and `sulfate`. `aer` stays, for `aerobic`.
 */
function wordsOf(text: string): Words {
  return inWords(
    plainWords(text).map((word) =>
      word.replace(/ae(?!r|$)|oe(?!$)/g, 'e').replace(/sulph/g, 'sulf'),
    ),
  )
}

const wordsAsWritten = (text: string): Words => inWords(plainWords(text))

const inWords = (words: readonly string[]): Words => ({
  words,
  spaced: words.join(' '),
  compact: words.join(''),
})

function plainWords(text: string): readonly string[] {
  return text
    .normalize('NFD')
    .replace(/[\p{M}'’]/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean)
}
