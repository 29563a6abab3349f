import { AMOUNT_FAULTS } from './amount.ts'
import { CLOCK_FAULTS } from './clock.ts'
import type { Fault } from './fault.ts'
import { LOCK_FAULTS } from './lock.ts'
import { MICROPHONE_FAULTS } from './microphone.ts'
import { PRESS_FAULTS } from './presses.ts'
import { PROCESS_FAULTS } from './processes.ts'
import { RELOAD_FAULTS } from './reload.ts'
import { ROOM_FAULTS } from './room.ts'
import { SOUND_FAULTS } from './sound.ts'
import { STORAGE_FAULTS } from './storage.ts'
import { STORAGE_OUTSIDE_FAULTS } from './storageOutside.ts'
import { TAB_FAULTS } from './tabs.ts'
import { VERSION_FAULTS } from './versions.ts'
import { WAKE_FAULTS } from './wake.ts'

/** Every fault, by family. */
export const FAULTS: readonly Fault[] = [
  ...STORAGE_FAULTS,
  ...STORAGE_OUTSIDE_FAULTS,
  ...CLOCK_FAULTS,
  ...PROCESS_FAULTS,
  ...SOUND_FAULTS,
  ...MICROPHONE_FAULTS,
  ...TAB_FAULTS,
  ...VERSION_FAULTS,
  ...WAKE_FAULTS,
  ...PRESS_FAULTS,
  ...LOCK_FAULTS,
  ...ROOM_FAULTS,
  ...AMOUNT_FAULTS,
  ...RELOAD_FAULTS,
]
