import { createEmitter } from '../../src/core/basics/emitter.ts'
import type { TakeOutcome, VersionState, Versions } from '../../src/ports/versions.ts'

export interface FakeVersions extends Versions {
  say(state: VersionState): void
  answer(outcome: TakeOutcome): void
  isBusy(): boolean
  taken(): number
}

/** Versions that say what a test wants and note what is asked of them. */
export function fakeVersions(): FakeVersions {
  const states = createEmitter<VersionState>()
  let outcome: TakeOutcome = 'taken'
  let busy = false
  let taken = 0
  return {
    onState: states.observe,
    setBusy: (next) => void (busy = next),
    take: () => {
      taken++
      return Promise.resolve(outcome)
    },
    say: (state) => states.emit(state),
    answer: (next) => void (outcome = next),
    isBusy: () => busy,
    taken: () => taken,
  }
}
