import type { Text } from '../basics/fillText.ts'
import type { Additive } from '../catalogue/additives.ts'
import type { StorePlace } from '../protocol/benchEvents.ts'
import type { Handled } from '../protocol/handled.ts'
import type { ExposureTexts } from './exposure.ts'
import type { RiskCode } from './riskTable.ts'

/** What the record holds that makes a risk, in figures. */
export type RiskFound =
  | 'bandLong'
  | 'fistClenched'
  | 'slowFill'
  | 'slowNoted'
  | 'short'
  | 'shortUnknown'
  | 'squeezed'
  | 'slowDrops'
  | 'slowPull'
  | 'transferLate'
  | 'noTransferDevice'
  | 'thinNeedle'
  | 'wetSkin'
  | 'notMixed'
  | 'mixedLate'
  | 'outOfOrder'
  | 'fastingNotAsked'
  | 'fastingShort'
  | 'infusionArm'
  | 'artery'
  | 'swelling'
  | 'noDiscard'
  | 'handledLate'
  | 'notHandled'
  | 'handOverOpen'
  | 'drawnEarly'
  | 'drawnLate'
  | 'momentMissing'
  | 'nextDoseMissing'
  | 'doseMissing'
  | 'doseSoon'
  | 'sameSite'
  | 'overTime'
  | 'spunEarly'
  | 'spunLate'
  | 'partedLate'
  | 'spunTwice'
  | 'keptCold'
  | 'unspun'
  | 'labelNotRead'
  | 'unlabelled'
  | 'labeledLate'
  | 'timeUncertain'
  | 'cardCircles'
  | 'cardEarly'
  | 'cardFirstDay'
  | 'cardAgeUnknown'
  | 'cardTransfused'
  | 'cardWet'
  | 'cardNotFlat'

/** Texts within the FHIR bundle that are ours; the displays of coded values are those of their standards. */
export type FhirText =
  /** BCP 47 tag under which the bundle carries the note. */
  | 'language'
  | 'venipuncture'
  | 'capillary'
  | 'capillaryBlood'
  | 'tourniquet'
  | 'tourniquetSearch'
  | 'consentPolicy'
  | 'consentGuardian'
  | 'consentInterpreter'
  | 'mixed'
  | 'spun'
  | 'spunAt'
  | 'separated'
  | 'aliquoted'
  | 'stored'
  | 'sent'
  | 'dropped'
  | 'rejected'
  | 'transferred'
  | 'filledShort'
  | 'inPlaceOf'
  | 'timeLimit'
  | 'unlabelled'
  | 'lot'
  | 'plannedLot'
  | 'expires'
  | 'risk'
  | 'aftercare'
  | 'device'
  | 'log'
  | 'entries'
  | 'lastHash'
  | 'reason'
  | 'takenBack'
  | 'newborn'
  | 'cardDried'
  | 'circles'
  | 'timePoint'
  | 'timePointDue'
  | 'timePointBefore'
  | 'lastDose'

/** The types of resources that are written. */
export type NarrativeTitle =
  | 'Patient'
  | 'Practitioner'
  | 'ServiceRequest'
  | 'Specimen'
  | 'Task'
  | 'Observation'
  | 'Procedure'
  | 'Consent'
  | 'Provenance'
  | 'AuditEvent'
  | 'DocumentReference'

/** What stands before a value in the words of a resource. */
export type NarrativeLabel =
  | 'name'
  | 'number'
  | 'birthDate'
  | 'gender'
  | 'status'
  | 'test'
  | 'order'
  | 'priority'
  | 'requester'
  | 'due'
  | 'reason'
  | 'patient'
  | 'accession'
  | 'collected'
  | 'by'
  | 'site'
  | 'container'
  | 'additive'
  | 'volume'
  | 'handling'
  | 'processing'
  | 'condition'
  | 'note'
  | 'performed'
  | 'complication'
  | 'needle'
  | 'what'
  | 'length'
  | 'at'
  | 'recorded'
  | 'source'
  | 'type'
  | 'received'

export interface RiskWording {
  readonly title: string
  /** What to doubt, and why. */
  readonly why: string
}

/** The words for what is made of a record in one language, beside those of the chart note. */
export interface RecordTexts {
  readonly language: string
  readonly risks: Readonly<Record<RiskCode, RiskWording>>
  readonly found: Readonly<Record<RiskFound, Text>>
  /** What was asked to be done with a tube, as it stands in a sentence. */
  readonly handled: Readonly<Record<Handled, string>>
  /** Where specimens are kept. */
  readonly places: Readonly<Record<StorePlace, string>>
  readonly fhir: Readonly<Record<FhirText, Text>>
  /** Headings and labels of what a FHIR resource says in words. */
  readonly narrative: {
    readonly titles: Readonly<Record<NarrativeTitle, string>>
    readonly labels: Readonly<Record<NarrativeLabel, string>>
  }
  readonly exposure: ExposureTexts
  /** Each additive in full, beside its code in the bundle. */
  readonly additives: Readonly<Record<Additive, string>>
}
