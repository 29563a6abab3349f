import type { AppState } from '../../../src/app/appApi.ts'
import type { Settings } from '../../../src/app/site/settings.ts'
import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'

/** One state of the draw screen, ready to show. */
export interface GalleryState {
  /** `straight/14 filling`, `faint at release/3 needleOut`. */
  readonly name: string
  readonly view: DrawView
  /** What of the app stands around it. */
  readonly around?: Partial<Omit<AppState, 'settings'>> & { readonly settings?: Partial<Settings> }
  /** The sheet of what else happened is open over it; where it is a selector, moved to that part. */
  readonly sheet?: true | string
}
