import { canonicalJson } from './canonicalJson.ts'
import type { AnyEvent, ChainEntry, Unsealed } from '../protocol/entry.ts'
import type { Seal } from '../protocol/transition.ts'
import { bareStamp } from '../time/stamp.ts'

/** SHA-256 of the UTF-8 bytes of a text, as 64 lower-case hex digits. Core is given it; it owns no crypto. */
export type Sha256 = (text: string) => string

/** What the first entry of a draw has as `previous`. */
export const NO_PREVIOUS = '0'.repeat(64)

/**
 * Closes an entry onto the one before it.
 * The entry is first brought to exactly what a file can hold, so that the sealed entry and its exported copy are the
 * same: `undefined` fields go, and a number that is not finite becomes `null`. Recording never fails for such a value.
 * @param previousHash `hash` of the entry before, `NO_PREVIOUS` for the first.
 */
export function sealEntry<E extends AnyEvent>(
  entry: Unsealed<E>,
  previousHash: string,
  sha256: Sha256,
): ChainEntry<E> {
  const written = { ...entry, at: bareStamp(entry.at) }
  const held = JSON.parse(JSON.stringify(written)) as Unsealed<E>
  const chained = wellFormed({ ...held, previous: previousHash })
  return { ...chained, hash: sha256(canonicalJson(chained)) }
}

/** Seals entries one after another, the first one onto `previousHash`. */
export function sealAll<E extends AnyEvent>(
  entries: readonly Unsealed<E>[],
  sha256: Sha256,
  previousHash: string = NO_PREVIOUS,
): ChainEntry<E>[] {
  const sealed: ChainEntry<E>[] = []
  for (const entry of entries) {
    sealed.push(sealEntry(entry, sealed.at(-1)?.hash ?? previousHash, sha256))
  }
  return sealed
}

/** The hash that an entry of any version should carry: over all of it but `hash` itself. */
export function hashOf(entry: Readonly<Record<string, unknown>>, sha256: Sha256): string {
  const { hash: _hash, ...rest } = entry
  return sha256(canonicalJson(rest))
}

/** Typed text can hold half a surrogate pair, which UTF-8 cannot; such a half is replaced by U+FFFD. */
function wellFormed<T>(value: T): T {
  const halves = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g
  const text = JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'string' ? part.replace(halves, '\uFFFD') : part,
  )
  return JSON.parse(text) as T
}

/** Seals onto the entry before, or as the first of a draw, for the protocol's transition. */
export function createSeal(sha256: Sha256): Seal {
  return (entry, previous) => sealEntry(entry, previous?.hash ?? NO_PREVIOUS, sha256)
}
