import type { Hearing } from '../../../ports/speech.ts'
import type { MeasuredChunk } from './audioTail.ts'
import type { Engine, EngineReply } from './engine.ts'

/** What one recognizer made of the audio up to a moment. */
export type Transcription = Omit<Hearing, 'utterance'>

/** One recognizer with its phrases: knows which chunk each answer belongs to, and how long it has been silent. */
export interface Recognizer {
  accept(chunk: MeasuredChunk): void
  /** Audio up to here has led to a final result, or was never given. */
  finished_ms(): number
  /** Audio up to here shows in its present text. */
  answered_ms(): number
  /** Its present text has one of its phrases in it. */
  hasPhrase(): boolean
  /** Chunks given and not answered. */
  waiting(): number
  /** Since when the oldest of them has waited for any answer, and since when for its own. */
  waitingSince_ms(): { readonly any: number; readonly own: number } | undefined
  /** Hears on to its next final result, delivers that alone, and goes. */
  drain(onGone: () => void): void
  remove(): void
}

/** How long a draining recognizer waits for the end of the utterance, chunks of 100 ms. */
const DRAIN_CHUNKS = 9

export function createRecognizer(
  engine: Engine,
  phrases: readonly string[],
  start_ms: number,
  now: () => number,
  onTranscription: (transcription: Transcription) => void,
  onFail: () => void,
): Recognizer {
  type Sent = Omit<Transcription, 'text' | 'final'> & { readonly sent_ms: number }
  const recognizer = engine.recognizer(phrases, onReply)
  let sent: readonly Sent[] = []
  let last: Sent | undefined
  let reply_ms = 0
  let text = ''
  let finished_ms = start_ms
  let gone = false
  let draining: { chunksLeft: number; readonly onGone: () => void } | undefined

  function onReply(reply: EngineReply): void {
    if (gone) return
    const about = sent[0] ?? last
    sent = sent.slice(1)
    reply_ms = now()
    if (reply.kind === 'error') onFail()
    if (reply.kind === 'error' || !about) return
    last = about
    const { sent_ms: _, ...measured } = about
    const final = reply.kind === 'final'
    const changed = reply.text !== text
    text = final ? '' : reply.text
    if (final) finished_ms = measured.mono_ms
    // A text that stands is told with each chunk: whether speech goes on decides what becomes of it.
    const notify = final || ((changed || text !== '') && !draining)
    if (notify) onTranscription({ text: reply.text, final, ...measured })
    if (final && draining) remove()
  }

  function remove(): void {
    if (gone) return
    gone = true
    recognizer.remove()
    draining?.onGone()
  }

  return {
    accept({ samples, level_dBFS: _, ...measured }) {
      if (gone) return
      if (sent.length === 0) reply_ms = now()
      sent = [...sent, { ...measured, sent_ms: now() }]
      recognizer.accept(samples)
      if (draining && --draining.chunksLeft === 0) recognizer.askFinal()
    },
    finished_ms: () => finished_ms,
    answered_ms: () => last?.mono_ms ?? finished_ms,
    hasPhrase: () => phrases.some((phrase) => ` ${text} `.includes(` ${phrase} `)),
    waiting: () => sent.length,
    waitingSince_ms: () => sent[0] && { any: reply_ms, own: sent[0].sent_ms },
    drain(onGone) {
      draining = { chunksLeft: DRAIN_CHUNKS, onGone }
    },
    remove,
  }
}
