import { createEmitter } from '../../src/core/basics/emitter.ts'
import type {
  ChoosingEar,
  EarChoice,
  Earpiece,
  EarState,
  OutputDevice,
} from '../../src/ports/earpiece.ts'

/** An ear that is as a test says, and remembers what was chosen. */
export interface FakeEarpiece extends Earpiece {
  choosing: ChoosingEar
  outputs: readonly OutputDevice[]
  readonly choices: EarChoice[]
  setState(state: EarState): void
}

export function fakeEarpiece(): FakeEarpiece {
  const states = createEmitter<EarState>()
  let state: EarState = 'loudspeaker'
  const fake: FakeEarpiece = {
    choosing: 'list',
    outputs: [],
    choices: [],
    list: () => Promise.resolve(fake.outputs),
    ask: () => Promise.resolve(fake.outputs[0]),
    use: (choice) => void fake.choices.push(choice),
    state: () => state,
    setState(next) {
      state = next
      states.emit(next)
    },
    onState: states.observe,
  }
  return fake
}
