import type {
  Engine,
  EngineRecognizer,
  EngineReply,
} from '../../src/adapters/speech/vosk/engine.ts'

/** One recognizer of a fake engine: remembers its chunks and answers when told to. */
export interface FakeRecognizer extends EngineRecognizer {
  readonly phrases: readonly string[]
  /** First sample of each chunk it was given, which the tests use to tell the chunks apart. */
  readonly chunks: number[]
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
      const chunks: number[] = []
      let askedFinal = false
      let removed = false
      const made: FakeRecognizer = {
        phrases,
        chunks,
        askedFinal: () => askedFinal,
        removed: () => removed,
        answer: onReply,
        accept: (samples) => void chunks.push(Math.round((samples[0] ?? 0) * 1000)),
        askFinal: () => (askedFinal = true),
        remove: () => (removed = true),
      }
      recognizers.push(made)
      return made
    },
    onDeath: (observer) => (onDeath = observer),
    close: () => (closed = true),
    closed: () => closed,
    die: () => onDeath(),
  }
}
