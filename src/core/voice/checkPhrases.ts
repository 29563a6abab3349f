import { waysToSay, type Lexicon } from './lexicon.ts'
import { phoneDistance } from './phoneDistance.ts'
import { isVowel } from './phones.ts'

/** Something to know about a phrase before it is relied on. */
export interface PhraseFault {
  /** `error`: it will not work. `warning`: it may be misheard or slow. */
  readonly weight: 'error' | 'warning'
  readonly kind:
    | 'notWritten'
    | 'missingWord'
    | 'sameWords'
    | 'clash'
    | 'close'
    | 'startsAnother'
    | 'tooShort'
    | 'noSound'
    | 'oneWording'
  readonly key: string
  readonly phrase: string
  /** The missing word, or the other phrase and its command. */
  readonly word?: string
  readonly other?: { readonly key: string; readonly phrase: string }
  /** Phone edit distance for each phone, where that is the reason. */
  readonly distance?: number
}

export type PhraseLists = Readonly<Record<string, readonly string[] | undefined>>

/**
 * Phrases nearer than this are one to the recognizer, and those nearer than `CLOSE` are confused now and then.
 * Set between pairs that our model was measured to confuse and pairs that it keeps apart; see the tests.
 */
export const CLASH = 0.13
export const CLOSE = 0.24
/** Fewer phones than this are found in other speech too easily. */
const FEWEST_PHONES = 5
const FEWEST_SYLLABLES = 2

/**
 * Checks phrases against the words of a model and against each other.
 * @param phrases wordings by command key
 * @param lexicon every word of the model
 * @param together whether two commands can be listened for at the same moment; only then can they clash
 * @param only phrases that are asked about; the others are there to clash with
 */
export function checkPhrases(
  phrases: PhraseLists,
  lexicon: Lexicon,
  together: (a: string, b: string) => boolean,
  only?: (phrase: string) => boolean,
): readonly PhraseFault[] {
  const asked = only ?? (() => true)
  const all = Object.entries(phrases).flatMap(([key, list = []]) =>
    list.map((phrase) => ({ key, phrase, ways: waysToSay(phrase, lexicon) })),
  )
  const alone = all
    .filter(({ phrase }) => asked(phrase))
    .flatMap((one) => faultsOfOne(one, lexicon))
  const pairs = all.flatMap((one, i) =>
    all
      .slice(i + 1)
      .filter(
        (two) =>
          one.key !== two.key &&
          (asked(one.phrase) || asked(two.phrase)) &&
          together(one.key, two.key),
      )
      .flatMap((two) => faultOfPair(one, two) ?? []),
  )
  const single = Object.entries(phrases).flatMap(([key, list = []]): readonly PhraseFault[] =>
    list.length < 2 ? [{ weight: 'warning', kind: 'oneWording', key, phrase: list[0] ?? '' }] : [],
  )
  return [...alone, ...pairs, ...single].sort((a, b) => rank(a) - rank(b))
}

const rank = ({ weight, distance }: PhraseFault): number =>
  (weight === 'error' ? 0 : 10) + (distance ?? 0)

interface Spoken {
  readonly key: string
  readonly phrase: string
  readonly ways: readonly (readonly string[])[]
}

function faultsOfOne({ key, phrase, ways }: Spoken, lexicon: Lexicon): readonly PhraseFault[] {
  if (!/^[a-z']+( [a-z']+)*$/.test(phrase))
    return [{ weight: 'error', kind: 'notWritten', key, phrase }]
  const missing = phrase.split(' ').filter((word) => !lexicon.has(word))
  if (missing.length > 0)
    return missing.map((word) => ({ weight: 'error', kind: 'missingWord', key, phrase, word }))
  if (ways.length === 0) return [{ weight: 'warning', kind: 'noSound', key, phrase }]
  const short = ways.some(
    (way) => way.length < FEWEST_PHONES || way.filter(isVowel).length < FEWEST_SYLLABLES,
  )
  return short ? [{ weight: 'warning', kind: 'tooShort', key, phrase }] : []
}

function faultOfPair(one: Spoken, two: Spoken): PhraseFault | undefined {
  const fault = (
    weight: PhraseFault['weight'],
    kind: PhraseFault['kind'],
    [a, b]: readonly [Spoken, Spoken] = [one, two],
  ): PhraseFault => ({
    weight,
    kind,
    key: a.key,
    phrase: a.phrase,
    other: { key: b.key, phrase: b.phrase },
  })
  if (one.phrase === two.phrase) return fault('error', 'sameWords')
  if (two.phrase.startsWith(`${one.phrase} `)) return fault('warning', 'startsAnother')
  if (one.phrase.startsWith(`${two.phrase} `)) return fault('warning', 'startsAnother', [two, one])
  const distances = one.ways.flatMap((a) => two.ways.map((b) => phoneDistance(a, b)))
  if (distances.length === 0) return undefined
  const distance = Math.min(...distances)
  if (distance < CLASH) return { ...fault('error', 'clash'), distance }
  return distance < CLOSE ? { ...fault('warning', 'close'), distance } : undefined
}
