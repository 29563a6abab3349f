/** What a shape is; how it looks is the painter's. */
export type StripLook =
  | 'axis'
  | 'tick'
  | 'minute'
  | 'fold'
  | 'lead'
  | 'band'
  | 'search'
  | 'over'
  | 'needle'
  | 'pressure'
  | 'tube'
  | 'discard'
  | 'lostTube'
  | 'mixed'
  | 'dot'
  | 'cue'
  | 'trouble'
  | 'corrected'
  | 'time'
  | 'word'
  | 'loud'

/** One shape of the drawing. `seq` names the entry it stands for. */
export type StripShape =
  | {
      readonly kind: 'line'
      readonly look: StripLook
      readonly x1: number
      readonly y1: number
      readonly x2: number
      readonly y2: number
      readonly seq?: number
    }
  | {
      readonly kind: 'bar'
      readonly look: StripLook
      readonly x: number
      readonly y: number
      readonly width: number
      readonly height: number
      /** Nobody recorded its end. */
      readonly isOpen: boolean
      readonly closure?: string
      readonly seq: number
    }
  | {
      readonly kind: 'path'
      readonly look: StripLook
      readonly d: string
      readonly seq?: number
    }
  | {
      readonly kind: 'text'
      readonly look: StripLook
      readonly x: number
      readonly y: number
      readonly middle: boolean
      readonly text: string
    }

export interface StripDrawing {
  readonly width: number
  readonly height: number
  readonly shapes: readonly StripShape[]
  /** All that is on it as one sentence, for who does not see it. */
  readonly about: string
}
