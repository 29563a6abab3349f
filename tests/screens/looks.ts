import type { Theme } from '../ui/gallery/forceTheme.ts'

export interface Size {
  readonly name: string
  readonly width: number
  readonly height: number
  /** It is read from two metres: a tablet or a monitor beside the chair. */
  readonly stands: boolean
}

/** A tablet both ways, a phone, and a small notebook, CSS px. */
export const SIZES: readonly Size[] = [
  { name: '1180x820', width: 1180, height: 820, stands: true },
  { name: '820x1180', width: 820, height: 1180, stands: true },
  { name: '390x844', width: 390, height: 844, stands: false },
  { name: '1280x800', width: 1280, height: 800, stands: true },
]

export const THEMES: readonly Theme[] = ['light', 'dark']
