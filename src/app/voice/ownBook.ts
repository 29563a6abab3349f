import { rankWordings } from '../../core/voice/rankWordings.ts'
import type { OwnVoice } from '../../core/voice/ownVoice.ts'
import type { PhraseBook } from '../site/phraseBook.ts'

/** The site's phrases in the order in which one person is shown them. What may be said stays the same. */
export function ownBook(book: PhraseBook, voice: OwnVoice | undefined): PhraseBook {
  if (!voice) return book
  const keys = new Set([...Object.keys(voice.counts), ...Object.keys(voice.chosen)])
  const own = [...keys].flatMap((key) => {
    const wordings = Object.hasOwn(book.phrases, key) ? book.phrases[key] : undefined
    return wordings ? [[key, rankWordings(voice, key, wordings)] as const] : []
  })
  return { ...book, phrases: { ...book.phrases, ...Object.fromEntries(own) } }
}
