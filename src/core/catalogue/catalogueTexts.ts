import type { Text } from '../basics/fillText.ts'
import type { Additive } from './additives.ts'
import type { GroupName } from './orderOfDraw.ts'

/** What can be wrong in a table of the catalogue or of the stock. */
export type CatalogueFaultCode =
  | 'noCode'
  | 'codeTaken'
  | 'noName'
  | 'noSpecimen'
  | 'unknownKind'
  | 'unknownAdditive'
  | 'additiveTwice'
  | 'neverIn'
  | 'fixedVolume'
  | 'belowOther'
  | 'notAboveOther'
  | 'notBelowOther'
  | 'noSharing'
  | 'temperatures'
  | 'unknownTube'
  | 'notADate'
  | 'notWhole'
  | 'notANumber'
  | 'outOfRange'
  | 'nameShared'
  | 'unknownTest'
  | 'notRising'
  | 'laboratoryTwice'
  | 'pickUps'
  | 'oneRest'

/** The words for the catalogue in one language. */
export interface CatalogueTexts {
  readonly language: string
  /** What is in a tube, as it stands within a sentence. */
  readonly additives: Readonly<Record<Additive, string>>
  /** Why a group stands where it does in the order of draw. */
  readonly whyHere: Readonly<Record<GroupName, string>>
  readonly faults: Readonly<Record<CatalogueFaultCode, Text>>
}
