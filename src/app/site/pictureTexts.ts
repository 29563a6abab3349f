import type { Handling } from '../../core/catalogue/handling.ts'
import type { StripTexts } from '../../core/record/stripTexts.ts'

/** The words of drawn pictures, `pictures.json` of a language. */
export interface PictureTexts {
  readonly strip: StripTexts
  readonly rack: RackTexts
  readonly ruler: RulerTexts
  readonly arms: ArmTexts
}

/** The drawn arms: which way they are seen, and why one is not to be used. */
interface ArmTexts {
  readonly facing: string
  /** The same of hands or feet, and where they are lanced. */
  readonly capillaryHeel: string
  readonly capillaryFinger: string
  /** Said of the one arm on which a vein is chosen. */
  readonly seen: string
  /** What is drawn dashed. */
  readonly back: string
  /** `{why}`. */
  readonly closed: string
  /** A closed arm that somebody decided to use: `{why}`. */
  readonly allowed: string
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
