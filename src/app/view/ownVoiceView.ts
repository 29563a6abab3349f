import {
  countsOf,
  type CheckFound,
  type OwnVoice,
  type WordingCounts,
} from '../../core/voice/ownVoice.ts'
import { isOftenTakenBack, LEAST_TRIES, type WordingOffer } from '../../core/voice/rankWordings.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import type { Words } from '../site/words.ts'

/** What this device has learned, as far as the screens know it. */
export interface OwnVoiceView {
  /** Of the person whom the settings name; shown only while that is who draws. */
  readonly own: OwnVoice | undefined
  /** How many other people's numbers are kept here, of which nothing is shown. */
  readonly others: number
  /** A change of wording that is offered after a draw. */
  readonly offer: (WordingOffer & { readonly drawId: string }) | undefined
}

export const NO_OWN_VOICE: OwnVoiceView = { own: undefined, others: 0, offer: undefined }

export interface OwnVoiceActions {
  /** What a microphone check has learned of somebody. */
  learn(collectorId: string, found: CheckFound): Promise<void>
  /** The answer to what is offered after a draw. */
  answerOffer(answer: 'change' | 'notNow' | 'never'): Promise<void>
  /** The site's own order again for a command, and changes of it may be offered again. */
  resetWording(key: string): Promise<void>
  /** Everything that is known of the person who draws. */
  forgetMine(): Promise<void>
  /** Everything that is known of anybody. */
  forgetAll(): Promise<void>
}

/** One wording of a command that something is known of. */
export interface WordingRow extends WordingCounts {
  readonly key: string
  readonly phrase: string
  /** The command in the words of the screen. */
  readonly label: string
  /** Why it stands where it stands; `first` where that is the site's own order. */
  readonly place: 'chosen' | 'heardBest' | 'first' | 'later'
  readonly isOftenTakenBack: boolean
  /** Said too rarely in checks to be ranked. */
  readonly isFew: boolean
}

/** What is known of a person, by command as the phrases file has them, the wording that is shown first first. */
export function wordingRows(
  voice: OwnVoice,
  site: PhraseBook,
  own: PhraseBook,
  { commands }: Words,
): readonly WordingRow[] {
  const labels: Readonly<Record<string, string | undefined>> = commands
  return Object.keys(site.phrases)
    .filter((key) => Object.hasOwn(voice.counts, key) || Object.hasOwn(voice.chosen, key))
    .flatMap((key) => {
      const isChosen = Object.hasOwn(voice.chosen, key)
      return (own.phrases[key] ?? []).map((phrase, i): WordingRow => {
        const counts = countsOf(voice, key, phrase)
        const isMoved = site.phrases[key]?.[0] !== phrase
        const first = isChosen ? 'chosen' : isMoved ? 'heardBest' : 'first'
        return {
          ...counts,
          ...{ key, phrase, label: labels[key] ?? key, place: i === 0 ? first : 'later' },
          isOftenTakenBack: isOftenTakenBack(voice, key, phrase),
          isFew: counts.asked < LEAST_TRIES,
        }
      })
    })
    .filter(({ asked, acted, place }) => asked > 0 || acted > 0 || place === 'chosen')
}
