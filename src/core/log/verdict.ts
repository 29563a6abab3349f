import { defined } from '../basics/defined.ts'
import { fillText, type TextValues } from '../basics/fillText.ts'
import { isoLocal } from '../time/format.ts'
import type { LogTexts, VerdictWord } from './logTexts.ts'
import type { ReadLog } from './readLog.ts'
import { unusual, type Unusual } from './sense/unusual.ts'

/** What is known here of a key: it is this device's own, somebody has named it, or nobody has. */
export type KeyStanding =
  { readonly kind: 'thisDevice' | 'unknown' } | { readonly kind: 'trusted'; readonly name: string }

/** Tells what is known of a public key (SPKI in hex). */
export type StandingOf = (publicKey: string) => KeyStanding

export interface Signer {
  readonly keyId: string
  readonly publicKey: string
  readonly standing: KeyStanding
  /** Unix ms, by the clock of the device that signed. */
  readonly signedAt_ms: number
  readonly entries: number
}

/** What can be said of a log whose signatures fit, and no more than that. */
export interface LogVerdict {
  readonly drawId: string
  readonly entries: number
  readonly lastHash: string
  readonly closed: boolean
  /** The device that exported the log, then those that added to it. */
  readonly signers: readonly Signer[]
  readonly unusual: readonly Unusual[]
  readonly upgradedFrom?: number
}

/** To be asked only after every check of `readLog` and `signatureFault` was passed. */
export function verdictOf(read: ReadLog, standingOf: StandingOf, now_ms: number): LogVerdict {
  const { log, parts, upgradedFrom } = read
  return defined({
    drawId: log.drawId,
    entries: log.entries.length,
    lastHash: parts.at(-1)?.trailer.lastHash ?? '',
    closed: log.entries.some(({ event }) => event.type === 'drawClosed'),
    signers: parts.map(({ trailer, entries }) => ({
      keyId: trailer.keyId,
      publicKey: trailer.publicKey,
      standing: standingOf(trailer.publicKey),
      signedAt_ms: trailer.exportedAt,
      entries,
    })),
    unusual: unusual(log, parts, now_ms),
    upgradedFrom,
  })
}

/** True when nobody here knows whose one of the keys is. */
export const hasUnknownKey = ({ signers }: Pick<LogVerdict, 'signers'>): boolean =>
  signers.some(({ standing }) => standing.kind === 'unknown')

/** The verdict in sentences: who signed, what that proves, what it does not, and what is odd. */
export function verdictLines(verdict: LogVerdict, texts: LogTexts): readonly string[] {
  const say = (word: VerdictWord, values: TextValues = {}): string =>
    fillText(texts.verdict[word], values)
  const { drawId, entries, lastHash, signers, closed, upgradedFrom } = verdict
  const signed = signers.map(({ keyId, signedAt_ms, entries: n }, index) =>
    say(index === 0 ? 'unchanged' : 'added', {
      n,
      drawId,
      keyId,
      time: isoLocal({ at_ms: signedAt_ms, offset_min: 0 }),
    }),
  )
  return [
    ...signed,
    ...new Set(signers.map((signer) => keySentence(signer, say))),
    say('proven'),
    say(hasUnknownKey(verdict) ? 'notProvenKey' : 'notProven'),
    ...(closed ? [] : [say('notClosed')]),
    ...verdict.unusual.map(({ id, values }) => fillText(texts.unusual[id], values)),
    ...(upgradedFrom === undefined ? [] : [say('oldFormat', { version: upgradedFrom })]),
    say('end', { n: entries, hash: lastHash }),
  ]
}

function keySentence(
  { keyId, standing }: Signer,
  say: (word: VerdictWord, values: TextValues) => string,
): string {
  if (standing.kind === 'trusted') return say('keyTrusted', { keyId, name: standing.name })
  return say(standing.kind === 'thisDevice' ? 'keyThisDevice' : 'keyUnknown', { keyId })
}
