import type { Hearing } from '../../../ports/speech.ts'
import { audioTail, hearAgain, type HeardChunk } from './audioTail.ts'
import { openEar, type Ear, type EarHearing } from './ear.ts'
import type { Engine } from './engine.ts'

/** The recognizer of the moment and those that are finishing; hands the sound over from one to the next without a gap. */
export interface Ears {
  /** Sound is heard by recognizers of this engine from now on; without one it waits for the next. */
  use(engine: Engine | undefined): void
  setPhrases(phrases: readonly string[]): void
  hear(chunk: HeardChunk): void
  /** Pieces given and not answered. */
  waiting(): number
  /** Nothing of what was heard so far is heard again. */
  forget(): void
  /** How long the engine has owed an answer, ms: to anything, and to the oldest piece. */
  owed_ms(): { readonly any: number; readonly oldest: number }
}

export function ears(
  now: () => number,
  deliver: (hearing: Hearing) => void,
  onFail: () => void,
): Ears {
  let tail = audioTail()
  const fading = new Set<Ear>()
  let engine: Engine | undefined
  let phrases: readonly string[] = []
  let ear: Ear | undefined
  let utterance = 0
  /** Sound after this is still to be heard when there is an engine again. */
  let heard_ms = Infinity

  function open(using: Engine, again: readonly HeardChunk[]): void {
    let mine = ++utterance
    const start_ms = again[0] ? again[0].mono_ms - 1 : (tail.last()?.mono_ms ?? -Infinity)
    const take = ({ level_dB, stretch, ...heard }: EarHearing): void => {
      const hearing = {
        ...heard,
        utterance: mine,
        ...(level_dB === undefined ? {} : { level_dB }),
        ...stretch,
      }
      if (heard.final && opened === ear) mine = ++utterance
      deliver(hearing)
    }
    const opened = openEar(using, phrases, start_ms, now, take, () => opened === ear && onFail())
    ear = opened
    again.forEach((chunk) => opened.hear(chunk))
  }

  function change(using: Engine, old: Ear): void {
    const heard = old.heardPhrase()
    const again = hearAgain(tail.after(old.finished_ms()), heard)
    // One that heard a phrase hears on, so that its final result can still contradict it.
    if (heard) {
      fading.add(old)
      old.fade(() => fading.delete(old))
    } else old.remove()
    open(using, again)
  }

  return {
    use(next) {
      if (ear) heard_ms = ear.heardPhrase() ? ear.answered_ms() : ear.finished_ms()
      engine = next
      ear = undefined
      fading.clear()
      if (!next) return
      open(next, tail.after(heard_ms))
    },
    setPhrases(next) {
      if (next.length === phrases.length && next.every((phrase, i) => phrase === phrases[i])) return
      phrases = [...next]
      if (engine && ear) change(engine, ear)
    },
    hear(chunk) {
      tail.add(chunk)
      fading.forEach((each) => each.hear(chunk))
      ear?.hear(chunk)
    },
    waiting: () =>
      [...fading, ...(ear ? [ear] : [])].reduce((sum, each) => sum + each.waiting(), 0),
    forget() {
      ear = undefined
      heard_ms = Infinity
      tail = audioTail()
    },
    owed_ms() {
      const since = ear?.waitingSince_ms()
      return since ? { any: now() - since.any, oldest: now() - since.own } : { any: 0, oldest: 0 }
    },
  }
}
