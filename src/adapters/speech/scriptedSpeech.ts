import { createEmitter } from '../../core/basics/emitter.ts'
import type { Hearing, Speech, SpeechState } from '../../ports/speech.ts'

/** Hears what it is told to hear: for tests, rehearsals and demonstrations without a microphone. */
export interface ScriptedSpeech extends Speech {
  /** A partial result of the utterance under way. */
  partial(text: string, more?: Partial<Hearing>): void
  /** The final result; the next hearing is of the next utterance. */
  final(text: string, more?: Partial<Hearing>): void
  level(level: number): void
  /** Has trouble, or with `undefined` listens again. */
  trouble(state: Extract<SpeechState, { kind: 'trouble' }> | undefined): void
  phrases(): readonly string[]
}

export function createScriptedSpeech(now: () => number): ScriptedSpeech {
  const hearings = createEmitter<Hearing>()
  const states = createEmitter<SpeechState>()
  const levels = createEmitter<number>()
  let started = false
  let phrases: readonly string[] = []
  let utterance = 1

  const hear = (text: string, final: boolean, more: Partial<Hearing>): void => {
    if (!started) return
    const hearing: Hearing = { text, final, utterance, mono_ms: now(), ...more }
    if (final) utterance += 1
    hearings.emit(hearing)
  }

  return {
    start: () => {
      started = true
      states.emit({ kind: 'loading' })
      states.emit({ kind: 'listening' })
      return Promise.resolve()
    },
    stop: () => {
      started = false
      states.emit({ kind: 'off' })
      return Promise.resolve()
    },
    setPhrases(next) {
      if (next.join('\n') === phrases.join('\n')) return
      phrases = [...next]
      utterance += 1
    },
    onHearing: hearings.observe,
    onState: states.observe,
    onLevel: levels.observe,
    partial: (text, more = {}) => hear(text, false, more),
    final: (text, more = {}) => hear(text, true, more),
    level: levels.emit,
    trouble: (state) => states.emit(state ?? { kind: 'listening' }),
    phrases: () => phrases,
  }
}
