import type { Text } from '../../core/basics/fillText.ts'

/** Texts about the device itself: its prefix, its label scanner. */
export interface DeviceTexts {
  readonly prefix: { readonly label: string; readonly hint: string; readonly error: string }
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
}
