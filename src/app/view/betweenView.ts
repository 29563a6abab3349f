import type { HeardView, ListeningView } from './drawViewTypes.ts'

/** What the screens show of the ears between patients. */
export interface BetweenView {
  readonly listening: ListeningView
  readonly heard?: HeardView
  /** What was answered to it aloud, or would have been. */
  readonly answered?: string
}
