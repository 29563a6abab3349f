import { drawLogName } from '../../core/hub/logNames.ts'
import type { DayStore } from '../../ports/dayStore.ts'
import type { LogStore } from '../../ports/logStore.ts'
import type { Clinic } from './clinic.ts'

interface Stores {
  readonly logStore: LogStore
  readonly dayStore: DayStore
}

/**
 * The stores of this device, which tell the clinic of everything once it is safely written here and never before, and
 * of what is no longer here.
 */
export function tellingStores(
  { logStore, dayStore }: Stores,
  clinic: Pick<Clinic, 'wrote' | 'erased'>,
): Stores {
  return {
    logStore: {
      ...logStore,
      append: async (drawId, entries) => {
        await logStore.append(drawId, entries)
        clinic.wrote(drawLogName(drawId))
      },
      erase: async (drawId) => {
        await logStore.erase(drawId)
        await clinic.erased(drawId)
      },
    },
    dayStore: {
      ...dayStore,
      append: async (day, entries) => {
        await dayStore.append(day, entries)
        clinic.wrote()
      },
    },
  }
}
