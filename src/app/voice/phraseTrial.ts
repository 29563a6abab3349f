import { shownNumber } from '../../core/basics/shownNumber.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { isCommandKey } from '../../core/protocol/commandTable.ts'
import { checkPhrases, type PhraseFault } from '../../core/voice/checkPhrases.ts'
import { readLexicon, type Lexicon } from '../../core/voice/lexicon.ts'
import { openTogether } from '../../core/voice/openTogether.ts'
import { allWordings, type PhraseBook } from '../site/phraseBook.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { Words } from '../site/words.ts'

/** What the screen tells of a wording that was tried. */
export interface TrialNote {
  readonly weight: 'error' | 'warning'
  readonly text: string
}

export interface PhraseTrial {
  /** Commands that a wording may be for, with their words on the screen. */
  readonly commands: readonly { readonly key: string; readonly label: string }[]
  /** Checks a wording as if it were added to a command; nothing to tell means that it should work. */
  readonly tryPhrase: (key: string, typed: string) => Promise<readonly TrialNote[]>
}

/** Tries new wordings against the shipped ones. The lexicon is read the first time it is needed. */
export function createPhraseTrial(
  book: PhraseBook,
  words: Words,
  texts: VoiceTexts,
  loadLexicon: () => Promise<string>,
): PhraseTrial {
  let lexicon: Promise<Lexicon> | undefined
  return {
    commands: Object.keys(book.phrases)
      .filter(isCommandKey)
      .map((key) => ({ key, label: words.commands[key] })),
    async tryPhrase(key, typed) {
      const phrase = tidyPhrase(typed)
      if (!phrase) return []
      lexicon ??= loadLexicon().then(readLexicon)
      let known: Lexicon
      try {
        known = await lexicon
      } catch {
        lexicon = undefined
        return [{ weight: 'error', text: texts.wordListMissing }]
      }
      const all = allWordings(book)
      const lists = { ...all, [key]: [...(all[key] ?? []), phrase] }
      return checkPhrases(lists, known, openTogether, (asked) => asked === phrase)
        .filter((fault) => fault.kind !== 'oneWording')
        .map((fault) => ({ weight: fault.weight, text: phraseFaultText(fault, texts) }))
    },
  }
}

/** As the model writes words: small letters, single spaces. */
const tidyPhrase = (typed: string): string => typed.toLowerCase().trim().replace(/\s+/g, ' ')

/** A fault as a sentence. */
export function phraseFaultText(fault: PhraseFault, texts: VoiceTexts): string {
  const { kind, key, phrase, word = '', other, distance } = fault
  return fillText(texts.phraseFaults[kind], {
    key,
    phrase,
    word,
    other: other?.phrase ?? '',
    otherKey: other?.key ?? '',
    distance: distance === undefined ? '' : shownNumber(distance, 2),
  })
}
