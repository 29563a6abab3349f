import type { Handling } from '../../core/catalogue/handling.ts'
import type { StripTexts } from '../../core/record/stripTexts.ts'

/** The words of drawn pictures, `pictures.json` of a language. */
export interface PictureTexts {
  readonly strip: StripTexts
  readonly rack: RackTexts
  readonly ruler: RulerTexts
}

interface RackTexts {
  /** `tube 4 of 6`, said of the tube that it is the turn of. */
  readonly place: string
  readonly before: string
  readonly after: string
  readonly discard: string
  /** `{tests}` and `{more}` others. */
  readonly andMore: string
  readonly redrawn: string
  /** The level is a guess from the time that passed. */
  readonly byTheClock: string
  readonly handling: Readonly<Record<Handling, string>>
}

/** The ruler on top of a draw: where it is, and a few letters for each mark. */
type RulerTexts = Readonly<
  Record<
    | 'about'
    | 'turn'
    | 'drawn'
    | 'before'
    | 'bandOn'
    | 'band'
    | 'bandOver'
    | 'needleFirst'
    | 'needle'
    | 'lancetFirst'
    | 'lancet'
    | 'needleOut'
    | 'tube'
    | 'press'
    | 'bandage',
    string
  >
>
