import type { AppState } from '../../src/app/appApi.ts'
import type { AppServices } from '../../src/app/appServices.ts'

/** A screen of the day, what stands behind it, and what is pressed to come to it. */
export interface DayScene {
  readonly state: Partial<AppState>
  readonly services?: Partial<AppServices>
  /** Selectors, pressed one after another. */
  readonly press?: readonly string[]
}
