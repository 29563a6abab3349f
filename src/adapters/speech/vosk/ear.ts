import type { HeardChunk } from './audioTail.ts'
import type { Engine, EngineReply } from './engine.ts'
import type { Stretch } from './speechStretch.ts'

/** What one recognizer made of the sound up to a moment. */
export interface EarHearing {
  readonly text: string
  readonly final: boolean
  readonly mono_ms: number
  readonly level_dB: number | undefined
  readonly stretch?: Stretch | undefined
}

/** One recognizer with its phrases: knows which sound each answer belongs to, and how long it has been silent. */
export interface Ear {
  hear(chunk: HeardChunk): void
  /** Sound up to here has led to a final result, or was never given. */
  finished_ms(): number
  /** Sound up to here shows in its present text. */
  answered_ms(): number
  /** Its present text has one of its phrases in it. */
  heardPhrase(): boolean
  /** Pieces given and not answered. */
  waiting(): number
  /** Since when the oldest of them has waited for any answer, and since when for its own. */
  waitingSince_ms(): { readonly any: number; readonly own: number } | undefined
  /** Hears on to its next final result, delivers that alone, and goes. */
  fade(onGone: () => void): void
  remove(): void
}

/** How long a fading ear waits for the end of the utterance, pieces of 100 ms. */
const FADE_PIECES = 9

export function openEar(
  engine: Engine,
  phrases: readonly string[],
  finished_ms: number,
  now: () => number,
  deliver: (hearing: EarHearing) => void,
  onFail: () => void,
): Ear {
  type Sent = Omit<EarHearing, 'text' | 'final'> & { readonly sent_ms: number }
  const recognizer = engine.recognizer(phrases, onReply)
  let sent: readonly Sent[] = []
  let last: Sent | undefined
  let reply_ms = 0
  let text = ''
  let finished = finished_ms
  let gone = false
  let fading: { piecesLeft: number; readonly onGone: () => void } | undefined

  function onReply(reply: EngineReply): void {
    if (gone) return
    const about = sent[0] ?? last
    sent = sent.slice(1)
    reply_ms = now()
    if (reply.kind === 'error') onFail()
    if (reply.kind === 'error' || !about) return
    last = about
    const { mono_ms, level_dB, stretch } = about
    const final = reply.kind === 'final'
    const changed = reply.text !== text
    text = final ? '' : reply.text
    if (final) finished = mono_ms
    // A text that stands is told with each piece: whether speech goes on decides what becomes of it.
    const told = final || ((changed || text !== '') && !fading)
    if (told) deliver({ text: reply.text, final, mono_ms, level_dB, stretch })
    if (final && fading) remove()
  }

  function remove(): void {
    if (gone) return
    gone = true
    recognizer.remove()
    fading?.onGone()
  }

  return {
    hear({ samples, mono_ms, level_dB, stretch }) {
      if (gone) return
      if (sent.length === 0) reply_ms = now()
      sent = [...sent, { mono_ms, level_dB, stretch, sent_ms: now() }]
      recognizer.accept(samples)
      if (fading && --fading.piecesLeft === 0) recognizer.askFinal()
    },
    finished_ms: () => finished,
    answered_ms: () => last?.mono_ms ?? finished,
    heardPhrase: () => phrases.some((phrase) => ` ${text} `.includes(` ${phrase} `)),
    waiting: () => sent.length,
    waitingSince_ms: () => sent[0] && { any: reply_ms, own: sent[0].sent_ms },
    fade(onGone) {
      fading = { piecesLeft: FADE_PIECES, onGone }
    },
    remove,
  }
}
