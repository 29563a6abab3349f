import type { LogStore } from '../../src/ports/logStore.ts'
import { StorageError, type StorageFault } from '../../src/ports/storageFault.ts'

/** A store whose appends go wrong in the way that is set, and whose hanging ones can be let through late. */
export interface TroubledStore extends LogStore {
  trouble: StorageFault | 'never' | undefined
  /** Lets every append through that hangs, in the order in which they came. */
  letThrough(): Promise<void>
  readonly tries: () => number
}

export function troubledStore(store: LogStore): TroubledStore {
  let held: (() => Promise<void>)[] = []
  let tries = 0
  const troubled: TroubledStore = {
    ...store,
    trouble: undefined,
    tries: () => tries,
    append: async (drawId, entries) => {
      tries++
      if (troubled.trouble === undefined) return store.append(drawId, entries)
      if (troubled.trouble !== 'never')
        throw new StorageError(troubled.trouble, 'as the test asked')
      const copy = structuredClone(entries)
      return new Promise((resolve, reject) => {
        held.push(() => store.append(drawId, copy).then(resolve, reject))
      })
    },
    letThrough: async () => {
      const now = held
      held = []
      for (const go of now) await go()
    },
  }
  return troubled
}
