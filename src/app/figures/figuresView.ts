import type { DrawMeasures } from '../../core/figures/drawMeasures.ts'

/** What a rehearsal of a script came to. */
export interface PracticeResult {
  readonly script: string
  readonly points: number
  readonly of: number
}

/** What reading one record came to. A broken one is told of and left out. */
export type ReadDraw =
  | {
      readonly kind: 'measured'
      readonly hash: string
      readonly measures: DrawMeasures
      readonly practice?: PracticeResult
    }
  | { readonly kind: 'broken' | 'unread' }

/** What the figures are made of: records as they were read on this page, by draw. Nothing of it is stored. */
export interface FiguresView {
  readonly read: ReadonlyMap<string, ReadDraw>
  /** While records are read: how many of how many. */
  readonly reading: { readonly done: number; readonly of: number } | undefined
}

export const NO_FIGURES: FiguresView = { read: new Map(), reading: undefined }
