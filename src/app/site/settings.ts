import type { Language } from '../../core/basics/language.ts'
import type { RotorAngle } from '../../core/bench/rcf.ts'

/** What a person sets on this device. */
export interface Settings {
  /** Of the screens, what is spoken, the note and what is printed; in use from the next start between draws. */
  readonly language: Language
  readonly voiceOn: boolean
  /** Also between patients and at the bench. */
  readonly listenBetween: boolean
  /** Names may be read aloud between patients, where the machine has a voice of its own. */
  readonly speakNames: boolean
  /** The key, by its code, that holds the ears open in a draw: a pedal types one; empty for none. */
  readonly heldKey: string
  /** A bar on the screen of the draw does the same. */
  readonly heldBar: boolean
  /** In loud rooms: nothing but what stops acts that was not said so. */
  readonly heldRequired: boolean
  readonly volume: number
  readonly silent: boolean
  /** What alarms a patient is spoken as a short code, and neutral wordings are shown first. */
  readonly discreet: boolean
  /** Nothing is spoken: each kind of prompt has its tone. */
  readonly tonesOnly: boolean
  /** The output that prompts go to, by the browser's id and name for it; empty for the loudspeaker. */
  readonly earId: string
  readonly earName: string
  /** Prompts may come from the loudspeaker while the earpiece is not there. */
  readonly speakWithoutEar: boolean
  readonly promptVoice: string
  /** File name of a Vosk model archive under `models/`; empty for the app's own, see `speechModels.ts`. */
  readonly speechModel: string
  readonly siteName: string
  readonly collectorName: string
  readonly collectorInitials: string
  /** When somebody last said that it is they who draw, Unix ms; 0 for never. */
  readonly collectorSaid_ms: number
  readonly paper: 'A4' | 'letter'
  /** Whose labels go on the tubes: printed here, or the laboratory's own with its numbers. */
  readonly labelsBy: 'app' | 'laboratory'
  /** Short prefix that makes specimen numbers unique across devices. */
  readonly devicePrefix: string
  /** Signs that the scanner is set to send before and behind each code; empty where it sends none. */
  readonly scanPrefix: string
  readonly scanSuffix: string
  /** Without use for so long a device with a PIN locks. */
  readonly lockAfter_min: number
  /** How long the site keeps records; 0 for until they are erased one by one. */
  readonly retention_days: number
  /** The figures are told by person too. */
  readonly figuresByPerson: boolean
  /** Which practice scripts were begun here, and when last; see `rehearsals.ts`. */
  readonly rehearsed: string
  /** The rotor of the centrifuge here. */
  readonly rotorPlaces: number
  readonly rotorRadius_mm: number
  readonly rotorAngle: RotorAngle
  readonly rotorMost_rpm: number
}

/** Where they are kept on this device. */
export const SETTINGS_KEY = 'settings'

export const DEFAULT_SETTINGS: Settings = {
  language: 'en',
  voiceOn: true,
  listenBetween: false,
  speakNames: false,
  heldKey: '',
  heldBar: false,
  heldRequired: false,
  volume: 0.8,
  silent: false,
  discreet: false,
  tonesOnly: false,
  earId: '',
  earName: '',
  speakWithoutEar: false,
  promptVoice: 'af_heart',
  speechModel: '',
  siteName: '',
  collectorName: '',
  collectorInitials: '',
  collectorSaid_ms: 0,
  paper: 'A4',
  labelsBy: 'app',
  devicePrefix: '',
  scanPrefix: '',
  scanSuffix: '',
  lockAfter_min: 5,
  retention_days: 0,
  figuresByPerson: false,
  rehearsed: '',
  // An invented example, and said to be one, until the site writes its own.
  rotorPlaces: 24,
  rotorRadius_mm: 170,
  rotorAngle: 'swing',
  rotorMost_rpm: 4000,
}

/** From and to, both allowed. */
export const SETTING_RANGES = {
  volume: [0, 1],
  lockAfter_min: [1, 60],
  retention_days: [0, 36_500],
  collectorSaid_ms: [0, Number.MAX_SAFE_INTEGER],
  rotorPlaces: [2, 96],
  rotorRadius_mm: [20, 500],
  rotorMost_rpm: [500, 30_000],
} as const satisfies Partial<Record<keyof Settings, readonly [number, number]>>
