import type { Text } from '../../core/basics/fillText.ts'
import type { TroubleText } from './voiceTexts.ts'

interface VersionTexts {
  readonly what: string
  readonly advice: string
  readonly take: string
}

/** Texts about the device itself: its prefix, its label scanner. */
export interface DeviceTexts {
  readonly prefix: { readonly label: string; readonly hint: string; readonly error: string }
  /** Why the screen may go dark in the middle of a draw. */
  readonly wake: Readonly<Record<'refused' | 'unavailable', TroubleText>>
  /** A newer version of the app. */
  readonly version: {
    readonly waiting: VersionTexts
    readonly taken: VersionTexts
    /** In the place of the advice while a draw runs or something is not saved. */
    readonly later: string
    readonly told: { readonly busy: string; readonly failed: string }
  }
  /** The app was opened at another address than the one its records are kept at. */
  readonly keptAt: {
    /** `{address}` */
    readonly what: Text
    readonly advice: string
    readonly go: string
  }
  readonly scan: {
    readonly question: string
    /** `{text}` */
    readonly seen: Text
    readonly yes: string
    readonly no: string
  }
  readonly scanner: {
    readonly title: string
    readonly about: string
    readonly prefix: { readonly label: string; readonly hint: string }
    readonly suffix: { readonly label: string; readonly hint: string }
    readonly error: string
  }
  /** How the ears are held open in a draw. */
  readonly held: {
    readonly title: string
    readonly about: string
    readonly key: { readonly label: string; readonly hint: string; readonly error: string }
    readonly bar: string
    readonly required: string
    readonly requiredAbout: string
  }
}
