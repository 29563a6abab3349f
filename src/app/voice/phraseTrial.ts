import { checkPhrases, type PhraseFault } from '../../core/voice/checkPhrases.ts'
import { readLexicon, type Lexicon } from '../../core/voice/lexicon.ts'
import { openTogether } from '../../core/voice/openTogether.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
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
  loadLexicon: () => Promise<string>,
): PhraseTrial {
  let lexicon: Promise<Lexicon> | undefined
  return {
    commands: Object.keys(book.phrases).map((key) => ({ key, label: words.commands[key] ?? key })),
    async tryPhrase(key, typed) {
      const phrase = tidyPhrase(typed)
      if (!phrase) return []
      lexicon ??= loadLexicon().then(readLexicon)
      let known: Lexicon
      try {
        known = await lexicon
      } catch {
        lexicon = undefined
        return [{ weight: 'error', text: 'The word list cannot be loaded.' }]
      }
      const lists = { ...book.phrases, [key]: [...(book.phrases[key] ?? []), phrase] }
      return checkPhrases(lists, known, openTogether, (asked) => asked === phrase)
        .filter((fault) => fault.kind !== 'oneWording')
        .map((fault) => ({ weight: fault.weight, text: phraseFaultText(fault) }))
    },
  }
}

/** As the model writes words: small letters, single spaces. */
export const tidyPhrase = (typed: string): string => typed.toLowerCase().trim().replace(/\s+/g, ' ')

/** A fault as a sentence. */
export function phraseFaultText({ kind, key, phrase, word, other, distance }: PhraseFault): string {
  const against = other ? `"${other.phrase}" (${other.key})` : ''
  const apart = distance === undefined ? '' : `, distance ${distance.toFixed(2)}`
  switch (kind) {
    case 'notWritten':
      return `"${phrase}" (${key}): write small letters and single spaces only.`
    case 'missingWord':
      return `"${phrase}" (${key}): the model does not know the word "${word ?? ''}".`
    case 'sameWords':
      return `"${phrase}" (${key}) is also a wording of ${other?.key ?? ''}, open at the same time.`
    case 'clash':
      return `"${phrase}" (${key}) sounds like ${against}, open at the same time${apart}.`
    case 'close':
      return `"${phrase}" (${key}) is close to ${against}${apart}.`
    case 'startsAnother':
      return `"${phrase}" (${key}) begins ${against}, so it acts only after the end of speech.`
    case 'tooShort':
      return `"${phrase}" (${key}) is short and may be heard in other speech.`
    case 'noSound':
      return `"${phrase}" (${key}) has a word of unknown pronunciation, so clashes cannot be found.`
    case 'oneWording':
      return `${key} has fewer than two wordings.`
  }
}
