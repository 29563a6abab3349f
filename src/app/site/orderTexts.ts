import type { Text } from '../../core/basics/fillText.ts'

/** Fields of the form as sentences begin with them. */
export type FieldWord =
  | 'fullName'
  | 'familyName'
  | 'givenNames'
  | 'birthDate'
  | 'recordNumber'
  | 'orderNumber'
  | 'provider'
  | 'providerNumber'
  | 'orderedAt'
  | 'ward'
  | 'visitNumber'
  | 'bandNumber'
  | 'weight_kg'
  | 'haematocrit_pct'
  | 'fasted_h'
  | 'earlierDraws_mL'

/** Why the form cannot be planned with yet. */
export type DraftFaultId =
  | 'missing'
  | 'otherName'
  | 'notInRange'
  | 'notANumber'
  | 'notADay'
  | 'inFuture'
  | 'tooLongAgo'
  | 'noTest'
  | 'noDoseTime'
  | 'noMomentTime'
  | 'noBirthTime'
  | 'bornOtherDay'
  | 'noFeedTime'
  | 'fedBeforeBirth'
  | 'notAnswered'

/** Why an order file is refused. One sentence a fault, each naming the item it is about. */
export type RefusalId =
  | 'empty'
  | 'tooLarge'
  | 'json'
  | 'text'
  | 'openQuote'
  | 'columnsMissing'
  | 'columnsUnknown'
  | 'columnsTwice'
  | 'noRow'
  | 'twoRows'
  | 'cellTooMany'
  | 'due'
  | 'place'
  | 'noName'
  | 'noRecordNumber'
  | 'noBirthDate'
  | 'birthDate'
  | 'priority'
  | 'noTest'
  | 'tooManyTests'
  | 'unknownTest'
  | 'ambiguousTest'
  | 'notABundle'
  | 'bundleType'
  | 'entryDeleted'
  | 'modifier'
  | 'implicitRules'
  | 'notOnePatient'
  | 'patientUnreadable'
  | 'patientDeceased'
  | 'patientReplaced'
  | 'oldNameOnly'
  | 'birthTime'
  | 'requestUnreadable'
  | 'noRequest'
  | 'twoOrders'
  | 'doNotPerform'
  | 'requestStatus'
  | 'requestIntent'
  | 'otherSubject'
  | 'noCode'
  | 'codesDisagree'
  | 'fasting'
  | 'tooMany'
  | 'more'

/** What a person must confirm before the order is planned. */
export type QuestionId =
  | 'patientInactive'
  | 'nameUse'
  | 'severalNames'
  | 'nameParts'
  | 'numberUse'
  | 'severalNumbers'
  | 'requestStatus'
  | 'requestIntent'
  | 'noSubject'
  | 'asNeeded'
  | 'otherDay'
  | 'otherTimes'
  | 'existingSpecimen'
  | 'bodySite'
  | 'note'
  | 'unknownSystem'
  | 'byWords'
  | 'testTwice'

/** The panel of questions that an order file left open. */
export type PanelWord = 'title' | 'about' | 'confirm' | 'confirmed' | 'confirmLabel' | 'leave'

export interface OrderTexts {
  readonly fields: Readonly<Record<FieldWord, string>>
  readonly draft: Readonly<Record<DraftFaultId, Text>>
  readonly refusals: Readonly<Record<RefusalId, Text>>
  readonly questions: Readonly<Record<QuestionId, Text>>
  readonly panel: Readonly<Record<PanelWord, string>>
  /** The form was changed while a file was read. */
  readonly movedOn: string
  /** Where a stop is to be passed without a name or a reason. */
  readonly approvalMissing: string
}
