import type { Hearing } from '../../../ports/speech.ts'
import { createAudioTail, hearAgain, type MeasuredChunk } from './audioTail.ts'
import type { Engine } from './engine.ts'
import { createRecognizer, type Recognizer, type Transcription } from './recognizer.ts'

/**
 * The recognizer of the moment and those that are draining; hands the audio over from one to the next without a gap.
 */
export interface RecognizerPool {
  /** Audio is heard by recognizers of this engine from now on; without one it waits for the next. */
  use(engine: Engine | undefined): void
  setPhrases(phrases: readonly string[]): void
  accept(chunk: MeasuredChunk): void
  /** Chunks given and not answered. */
  waiting(): number
  /** Nothing of what was heard so far is heard again. */
  forget(): void
  /** How long the engine has owed an answer, ms: to anything, and to the oldest chunk. */
  owed_ms(): { readonly any: number; readonly oldest: number }
}

export function createRecognizerPool(
  now: () => number,
  onHearing: (hearing: Hearing) => void,
  onFail: () => void,
): RecognizerPool {
  let tail = createAudioTail()
  const draining = new Set<Recognizer>()
  let engine: Engine | undefined
  let phrases: readonly string[] = []
  let current: Recognizer | undefined
  let utterance = 0
  /** Audio after this is still to be heard when there is an engine again. */
  let resume_ms = Infinity

  function open(using: Engine, again: readonly MeasuredChunk[]): void {
    let mine = ++utterance
    const start_ms = again[0] ? again[0].mono_ms - 1 : (tail.last()?.mono_ms ?? -Infinity)
    const onTranscription = (transcription: Transcription): void => {
      const hearing = { ...transcription, utterance: mine }
      if (hearing.final && opened === current) mine = ++utterance
      onHearing(hearing)
    }
    const fail = (): void => {
      if (opened === current) onFail()
    }
    const opened = createRecognizer(using, phrases, start_ms, now, onTranscription, fail)
    current = opened
    again.forEach((chunk) => opened.accept(chunk))
  }

  function change(using: Engine, old: Recognizer): void {
    const hasPhrase = old.hasPhrase()
    const again = hearAgain(tail.after(old.finished_ms()), hasPhrase)
    // One that heard a phrase hears on, so that its final result can still contradict it.
    if (hasPhrase) {
      draining.add(old)
      old.drain(() => draining.delete(old))
    } else old.remove()
    open(using, again)
  }

  return {
    use(next) {
      if (current) resume_ms = current.hasPhrase() ? current.answered_ms() : current.finished_ms()
      engine = next
      current = undefined
      draining.clear()
      if (!next) return
      open(next, tail.after(resume_ms))
    },
    setPhrases(next) {
      if (next.length === phrases.length && next.every((phrase, i) => phrase === phrases[i])) return
      phrases = [...next]
      if (engine && current) change(engine, current)
    },
    accept(chunk) {
      tail.add(chunk)
      draining.forEach((each) => each.accept(chunk))
      current?.accept(chunk)
    },
    waiting: () =>
      [...draining, ...(current ? [current] : [])].reduce((sum, each) => sum + each.waiting(), 0),
    forget() {
      current = undefined
      resume_ms = Infinity
      tail = createAudioTail()
    },
    owed_ms() {
      const since = current?.waitingSince_ms()
      return since ? { any: now() - since.any, oldest: now() - since.own } : { any: 0, oldest: 0 }
    },
  }
}
