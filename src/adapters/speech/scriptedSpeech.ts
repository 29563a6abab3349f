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
  const hearings = new Set<(hearing: Hearing) => void>()
  const states = new Set<(state: SpeechState) => void>()
  const levels = new Set<(level: number) => void>()
  let started = false
  let phrases: readonly string[] = []
  let utterance = 1

  const subscribe = <T>(all: Set<T>, one: T): (() => void) => {
    all.add(one)
    return () => void all.delete(one)
  }
  const tell = (state: SpeechState): void => states.forEach((listener) => listener(state))
  const hear = (text: string, final: boolean, more: Partial<Hearing>): void => {
    if (!started) return
    const hearing: Hearing = { text, final, utterance, mono_ms: now(), ...more }
    if (final) utterance += 1
    hearings.forEach((listener) => listener(hearing))
  }

  return {
    start: () => {
      started = true
      tell({ kind: 'loading' })
      tell({ kind: 'listening' })
      return Promise.resolve()
    },
    stop: () => {
      started = false
      tell({ kind: 'off' })
      return Promise.resolve()
    },
    setPhrases(next) {
      if (next.join('\n') === phrases.join('\n')) return
      phrases = [...next]
      utterance += 1
    },
    onHearing: (listener) => subscribe(hearings, listener),
    onState: (listener) => subscribe(states, listener),
    onLevel: (listener) => subscribe(levels, listener),
    partial: (text, more = {}) => hear(text, false, more),
    final: (text, more = {}) => hear(text, true, more),
    level: (level) => levels.forEach((listener) => listener(level)),
    trouble: (state) => tell(state ?? { kind: 'listening' }),
    phrases: () => phrases,
  }
}
