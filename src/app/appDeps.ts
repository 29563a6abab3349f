import type { VerifySignature } from '../core/log/exportFile.ts'
import type { Sha256 } from '../core/log/seal.ts'
import type { Clock } from '../ports/clock.ts'
import type { DeviceKey } from '../ports/deviceKey.ts'
import type { LogStore } from '../ports/logStore.ts'
import type { SettingsStore } from '../ports/settingsStore.ts'
import type { Sound } from '../ports/sound.ts'
import type { SpeechMaker } from './draw/voiceControl.ts'
import type { SiteData } from './site/siteData.ts'
import type { StorageTexts } from './site/storageTexts.ts'

/** Everything outside that the app stands on; made once where the app is wired. */
export interface AppDeps {
  readonly clock: Clock
  readonly logStore: LogStore
  readonly settingsStore: SettingsStore
  readonly sound: Sound
  readonly makeSpeech: SpeechMaker
  readonly deviceKey: DeviceKey
  readonly sha256: Sha256
  readonly verifySignature: VerifySignature
  readonly site: SiteData
  readonly storageTexts: StorageTexts
  /** A prefix for a device that has none yet. */
  readonly newDevicePrefix: () => string
  /** A whole number from 0 to 4294967295 that nobody can foresee. */
  readonly drawLot: () => number
}
