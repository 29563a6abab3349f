import type { Language } from '../core/basics/language.ts'
import type { Result } from '../core/basics/result.ts'
import type { Clinic } from './hub/clinic.ts'
import type { ClinicSetupFound } from './hub/setup/clinicSetup.ts'
import type { MovedClinic } from './hub/setup/findHub.ts'
import type { Sha256 } from '../core/log/seal.ts'
import type { Clock } from '../ports/clock.ts'
import type { Jobs } from '../ports/jobs.ts'
import type { DayStore } from '../ports/dayStore.ts'
import type { DeviceKey } from '../ports/deviceKey.ts'
import type { DrawLock } from '../ports/drawLock.ts'
import type { Earpiece } from '../ports/earpiece.ts'
import type { LogStore } from '../ports/logStore.ts'
import type { OtherPages } from '../ports/otherPages.ts'
import type { Page } from '../ports/page.ts'
import type { Reader } from '../ports/reader.ts'
import type { RunningStore } from '../ports/runningStore.ts'
import type { ScreenWake } from '../ports/screenWake.ts'
import type { SettingsStore } from '../ports/settingsStore.ts'
import type { Sound } from '../ports/sound.ts'
import type { Vault } from '../ports/vault.ts'
import type { Versions } from '../ports/versions.ts'
import type { AppState } from './appApi.ts'
import type { HandOverDeps } from './site/handOverDeps.ts'
import type { ListeningLimits } from './site/listeningLimits.ts'
import type { Intake } from './intake/createIntake.ts'
import type { IntakeJobs } from './intake/intakeJobs.ts'
import type { DrawLogs } from './draw/drawLogs.ts'
import type { SpeechMaker } from './draw/voiceControl.ts'
import type { LanguageTexts } from './site/languageTexts.ts'
import type { NamedScenario } from './site/namedScenario.ts'
import type { OwnVoiceKeeper } from './voice/ownVoices.ts'
import type { OwnStock } from './site/ownStock.ts'
import type { SiteData } from './site/siteData.ts'
import type { StorageTexts } from './site/storageTexts.ts'

/** Everything outside that the app stands on; made once where the app is wired. */
export interface AppDeps {
  readonly clock: Clock
  readonly logStore: LogStore
  readonly dayStore: DayStore
  /** Missing on a device that belongs to no clinic. */
  readonly clinic?: Clinic
  /** Looks whether the site has a hub. Missing where nothing but this device is wanted. */
  readonly findClinicSetup?: () => Promise<ClinicSetupFound>
  /** What other pages make of this device; missing where there are none. */
  readonly clinicMoved?: {
    readonly look: () => Promise<MovedClinic | undefined>
    readonly onTold: (observer: () => void) => void
  }
  /** Missing where there is nothing to hand over to, as in a command. */
  readonly handOver?: HandOverDeps
  readonly settingsStore: SettingsStore
  readonly drawLock: DrawLock
  readonly runningStore: RunningStore
  readonly vault: Vault
  /** Encrypts what was stored before there was a PIN; goes on where it was interrupted. */
  readonly sealStored: (onProgress: (done: number, of: number) => void) => Promise<void>
  /** Puts everything back in plain and takes the vault away; goes on where it was interrupted. */
  readonly unsealStored: (onProgress: (done: number, of: number) => void) => Promise<void>
  readonly sound: Sound
  readonly earpiece: Earpiece
  /** Reads what is not recorded, such as names. */
  /** Reads in the language of the screens. */
  readonly reader: Reader
  /** Other pages of this browser that read the settings; missing where there are none. */
  readonly settingsPages?: OtherPages
  /** Reads to a patient in theirs. */
  readonly readers: Readonly<Record<Language, Reader>>
  /** What the patient gets, in each language. */
  readonly leaflets: Readonly<Record<Language, LanguageTexts['leaflet']>>
  /** Whether prompts in the language of the screens are recorded. */
  readonly hasVoice: boolean
  readonly screenWake: ScreenWake
  readonly versions: Versions
  readonly makeSpeech: SpeechMaker
  readonly listening: ListeningLimits
  readonly deviceKey: DeviceKey
  readonly sha256: Sha256
  /** Reads files out of the way of the clocks. */
  readonly jobs: Jobs<IntakeJobs>
  readonly site: SiteData
  readonly storageTexts: StorageTexts
  /** Practice scripts, in the order in which they are offered. */
  readonly scenarios: readonly NamedScenario[]
  /** A prefix for a device that has none yet. */
  readonly newDevicePrefix: () => string
  /** A whole number from 0 to 4294967295 that nobody can foresee. */
  readonly drawLot: () => number
  readonly page: Page
}

/** What the actions share: the state, and ways to tell a person that something failed. */
export interface AppParts extends AppDeps {
  readonly clinic: Clinic
  readonly logs: DrawLogs
  readonly intake: Intake
  readonly stock: OwnStock
  readonly ownVoices: OwnVoiceKeeper
  readonly set: (change: Partial<AppState>) => void
  readonly get: () => AppState
  /** Runs a piece of work; where it fails the person is told, in the sentence given and the reason behind it. */
  readonly guarded: <T>(what: string, work: () => Promise<T>) => Promise<Result<T>>
  readonly refreshDraws: () => Promise<void>
  /** The local day, `YYYY-MM-DD`. */
  readonly today: () => string
}
