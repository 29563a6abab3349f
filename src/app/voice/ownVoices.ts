import { createTurns } from '../../core/basics/turns.ts'
import { ownValue } from '../../core/basics/ownValue.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import { boundPeople } from '../../core/voice/boundPeople.ts'
import { noVoice, type OwnVoice } from '../../core/voice/ownVoice.ts'
import { ownVoicesText, readOwnVoices, type OwnVoices } from '../../core/voice/readOwnVoices.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import { ownBook } from './ownBook.ts'

export const OWN_VOICES_KEY = 'ownVoices'

export interface OwnVoicesDeps {
  readonly settingsStore: SettingsStore
  readonly phrases: PhraseBook
  readonly sha256: Sha256
  /** A whole number from 0 to 4294967295 that nobody can foresee. */
  readonly drawLot: () => number
}

/**
 * What this device has learned of everybody who draws with it: each under a digest of the collector's id, so that no
 * name stands in it. It stays on this device, in no record, no export and no clinic.
 */
export interface OwnVoiceKeeper {
  /** Reads anew, since another page may have learned. `unread`: something was damaged, and is forgotten. */
  load(): Promise<readonly 'unread'[]>
  of(collectorId: string): OwnVoice | undefined
  /** How many other people's numbers are kept. */
  othersThan(collectorId: string | undefined): number
  /** The phrases in that person's order. */
  bookFor(collectorId: string | undefined): PhraseBook
  /** Changes what is known of a person, on the disk first. */
  change(collectorId: string, day: string, by: (voice: OwnVoice) => OwnVoice): Promise<void>
  forget(collectorId: string): Promise<void>
  forgetAll(): Promise<void>
}

export function createOwnVoices(deps: OwnVoicesDeps): OwnVoiceKeeper {
  const { settingsStore: store, phrases, sha256 } = deps
  const inTurn = createTurns()
  let kept: OwnVoices | undefined
  let books = new Map<string, PhraseBook>()

  const take = (next: OwnVoices | undefined): void => {
    kept = next
    books = new Map()
  }

  const idIn = ({ salt }: OwnVoices, collectorId: string): string =>
    sha256(`${salt} ${collectorId}`).slice(0, 32)

  const of = (collectorId: string): OwnVoice | undefined =>
    kept && ownValue(kept.people, idIn(kept, collectorId))

  /** Changes what stands on the disk by then, whatever this page believed. */
  const update = (by: (voices: OwnVoices | undefined) => OwnVoices | undefined): Promise<void> =>
    inTurn(async () => {
      let next: OwnVoices | undefined
      await store.update(OWN_VOICES_KEY, (text) => {
        next = by(readOwnVoices(text, phrases.phrases).value)
        return next ? ownVoicesText(next) : ''
      })
      take(next)
    })

  const newSalt = (): string =>
    [0, 0, 0, 0].map(() => deps.drawLot().toString(16).padStart(8, '0')).join('')

  return {
    load: () =>
      inTurn(async () => {
        const { value, faults } = readOwnVoices(await store.read(OWN_VOICES_KEY), phrases.phrases)
        take(value)
        if (faults.length > 0) {
          // Once told it is not told again: what is left of it is all there is from now on.
          await store.write(OWN_VOICES_KEY, value ? ownVoicesText(value) : '')
        }
        return faults
      }),
    of,
    othersThan: (collectorId) => {
      const all = Object.keys(kept?.people ?? {}).length
      return collectorId !== undefined && of(collectorId) ? all - 1 : all
    },
    bookFor: (collectorId) => {
      if (collectorId === undefined) return phrases
      const book = books.get(collectorId) ?? ownBook(phrases, of(collectorId))
      books.set(collectorId, book)
      return book
    },
    change: (collectorId, day, by) =>
      update((found) => {
        const voices = found ?? { salt: newSalt(), people: {} }
        const id = idIn(voices, collectorId)
        const voice = by(ownValue(voices.people, id) ?? noVoice(day))
        return { ...voices, people: boundPeople({ ...voices.people, [id]: voice }) }
      }),
    forget: (collectorId) =>
      update((voices) => {
        if (!voices) return undefined
        const gone = idIn(voices, collectorId)
        const left = Object.entries(voices.people).filter(([id]) => id !== gone)
        return left.length > 0 ? { ...voices, people: Object.fromEntries(left) } : undefined
      }),
    forgetAll: () => update(() => undefined),
  }
}
