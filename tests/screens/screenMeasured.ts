import type { Theme } from '../ui/gallery/forceTheme.ts'
import type { Measured } from './inPage/measured.ts'

/** One state at one size in one theme. */
export interface ScreenMeasured extends Measured {
  readonly state: string
  readonly size: string
  readonly theme: Theme
  readonly emptyShare: number | undefined
}
