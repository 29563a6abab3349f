import type {
  Engine,
  EngineRecognizer,
  EngineReply,
} from '../../src/adapters/speech/vosk/engine.ts'

/** One recognizer of a fake engine: remembers its sound and answers when told to. */
export interface FakeRecognizer extends EngineRecognizer {
  readonly phrases: readonly string[]
  /** First sample of each piece it was given, which the tests use to tell the pieces apart. */
  readonly heard: number[]
  readonly askedFinal: () => boolean
  readonly removed: () => boolean
  answer(reply: EngineReply): void
}

export interface FakeEngine extends Engine {
  readonly recognizers: FakeRecognizer[]
  closed(): boolean
  die(): void
}

export function fakeEngine(): FakeEngine {
  const recognizers: FakeRecognizer[] = []
  let closed = false
  let onDeath: () => void = () => undefined
  return {
    recognizers,
    recognizer(phrases, onReply) {
      const heard: number[] = []
      let askedFinal = false
      let removed = false
      const made: FakeRecognizer = {
        phrases,
        heard,
        askedFinal: () => askedFinal,
        removed: () => removed,
        answer: onReply,
        accept: (samples) => void heard.push(Math.round((samples[0] ?? 0) * 1000)),
        askFinal: () => (askedFinal = true),
        remove: () => (removed = true),
      }
      recognizers.push(made)
      return made
    },
    onDeath: (listener) => (onDeath = listener),
    close: () => (closed = true),
    closed: () => closed,
    die: () => onDeath(),
  }
}
