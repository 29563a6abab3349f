import { ownValue } from '../basics/ownValue.ts'
import { likelyShare } from './likelyShare.ts'
import { countsOf, type OwnVoice } from './ownVoice.ts'

/**
 * Small numbers say little, so a wording moves ahead of another one only when both were said this often in checks and
 * the ranges of their likely shares do not meet: three of three against one of three is enough, against two of three
 * it is not. Our choice, no source.
 */
export const LEAST_TRIES = 3
/** A wording is called often taken back only after so many acts, and when the share is likely above this. */
export const LEAST_ACTS = 6
const OFTEN = 0.2
/** After a change was offered, nothing is offered for that command for so many draws. */
export const REST_DRAWS = 10

/** A change of wording that is offered to a person, with why. */
export interface WordingOffer {
  readonly key: string
  /** What is shown first now, and what would be. */
  readonly from: string
  readonly to: string
  readonly acted: number
  readonly takenBack: number
}

/**
 * The wordings of a command as a person is shown them: the one they chose, then those that are heard better than the
 * ones before them in the site's order. Every one of them stays open to be said.
 */
export function rankWordings(
  voice: OwnVoice | undefined,
  key: string,
  wordings: readonly string[],
): readonly string[] {
  if (!voice) return wordings
  const ranked = wordings.reduce<readonly string[]>((so, next) => {
    const beaten = so.findIndex((other) => isHeardBetter(voice, key, next, other))
    return beaten < 0 ? [...so, next] : [...so.slice(0, beaten), next, ...so.slice(beaten)]
  }, [])
  const chosen = ownValue(voice.chosen, key)
  if (chosen === undefined || !ranked.includes(chosen)) return ranked
  return [chosen, ...ranked.filter((each) => each !== chosen)]
}

/** Whether checks say that this person is heard better with one wording than with another. */
function isHeardBetter(voice: OwnVoice, key: string, one: string, other: string): boolean {
  const [a, b] = [countsOf(voice, key, one), countsOf(voice, key, other)]
  if (Math.min(a.asked, b.asked) < LEAST_TRIES) return false
  return likelyShare(a.heard, a.asked).from > likelyShare(b.heard, b.asked).to
}

/** Whether acts on this wording are often taken back. */
export function isOftenTakenBack(voice: OwnVoice, key: string, phrase: string): boolean {
  const { acted, takenBack } = countsOf(voice, key, phrase)
  return acted >= LEAST_ACTS && likelyShare(takenBack, acted).from > OFTEN
}

/**
 * The change that may be offered after a draw: the wording that is shown first and is most often taken back, against
 * the best one of the same command that is not. One at a time; what rests and what is never to be asked is left out.
 * @param book the site's wordings by command
 */
export function wordingOffer(
  voice: OwnVoice,
  book: Readonly<Record<string, readonly string[] | undefined>>,
): WordingOffer | undefined {
  const offers = Object.keys(voice.counts).flatMap((key): readonly WordingOffer[] => {
    if (voice.never.includes(key) || ownValue(voice.rests, key) !== undefined) return []
    const [from, ...others] = rankWordings(voice, key, ownValue(book, key) ?? [])
    if (from === undefined || !isOftenTakenBack(voice, key, from)) return []
    const to = others.find(
      (other) => !isOftenTakenBack(voice, key, other) && !isHeardBetter(voice, key, from, other),
    )
    const { acted, takenBack } = countsOf(voice, key, from)
    return to === undefined ? [] : [{ key, from, to, acted, takenBack }]
  })
  const share = ({ acted, takenBack }: WordingOffer): number => takenBack / acted
  return [...offers].sort((a, b) => share(b) - share(a))[0]
}

/** It was offered: for some draws it is not offered again, whatever the answer. */
export const resting = (voice: OwnVoice, key: string): OwnVoice => ({
  ...voice,
  rests: { ...voice.rests, [key]: REST_DRAWS },
})

/** The person takes it. */
export const choosing = (voice: OwnVoice, key: string, phrase: string): OwnVoice => ({
  ...voice,
  chosen: { ...voice.chosen, [key]: phrase },
})

/** The person wants to hear of it no more. */
export const neverAsking = (voice: OwnVoice, key: string): OwnVoice =>
  voice.never.includes(key) ? voice : { ...voice, never: [...voice.never, key] }

/** The site's order again, and a change may be offered again. */
export function resetting(voice: OwnVoice, key: string): OwnVoice {
  const without = <T>(table: Readonly<Record<string, T>>): Readonly<Record<string, T>> =>
    Object.fromEntries(Object.entries(table).filter(([each]) => each !== key))
  return {
    ...voice,
    chosen: without(voice.chosen),
    rests: without(voice.rests),
    never: voice.never.filter((each) => each !== key),
  }
}
