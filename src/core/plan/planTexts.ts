import type { Text } from '../basics/fillText.ts'
import type { DropGroup } from '../catalogue/orderOfDraw.ts'
import type { NeedleSet } from '../order/order.ts'

/** Faults of the input itself: with one of these nothing is planned. */
const INPUT_FAULTS = [
  'noTests',
  'badToday',
  'badBirthDate',
  'badWeight',
  'badHaematocrit',
  'badEarlierDraws',
  'badTemperature',
  'badNeedle',
  'catalogueFault',
  'stockFault',
] as const
type InputFault = (typeof INPUT_FAULTS)[number]

/** Everything a plan may say beside its tubes, by a name that stays the same in every language. */
export type PlanNoticeCode =
  | InputFault
  | 'weightMissing'
  | 'bothArms'
  | 'capillarySite'
  | 'uncovered'
  | 'noDiscardTube'
  | 'overLimit'
  | 'muchBlood'
  | 'repeatedTest'
  | 'notProven'
  | 'leastVolumes'
  | 'reducedVolume'
  | 'partFill'
  | 'expiredLot'
  | 'citrateFill'
  | 'citrateHaematocrit'
  | 'lineAir'
  | 'haematocritAssumed'
  | 'fasting'
  | 'latex'
  | 'faintedBefore'
  | 'gauge'
  | 'bandTooLong'
  | 'bring'
  | 'noAlcohol'
  | 'timing'
  | 'orderBroken'
  | 'syringe'

/** True for a fault of the input itself; other problems can befall a sound order too. */
export function isInputFault(code: string): boolean {
  return (INPUT_FAULTS as readonly string[]).includes(code)
}

/** Notices that are worded differently from case to case. */
interface Cases {
  readonly badBirthDate: 'notPast' | 'tooLongAgo'
  readonly badNeedle: 'needle_mm' | 'tubing_mm' | 'tubingBore_mm' | 'gauge'
  readonly overLimit: 'draw' | 'period'
  readonly muchBlood: 'draw' | 'period'
  readonly lineAir: 'enough' | 'tight'
  readonly noDiscardTube: 'citrate' | 'other'
  readonly fasting: 'notAsked' | 'tooShort'
  readonly timing: 'when' | 'lastDose' | 'doseTime'
  readonly capillarySite: 'heel' | 'finger'
  readonly bring: 'ice' | 'warm' | 'syringe'
  readonly syringe: 'small' | 'none'
}

export type NoticeTexts = {
  readonly [C in PlanNoticeCode]: C extends keyof Cases ? Readonly<Record<Cases[C], Text>> : Text
}

/** Why no tube of the plan serves a test. */
export type UncoveredReason =
  | 'notPlanned'
  | 'unknownTest'
  | 'noSuchTube'
  | 'noneOnHand'
  | 'allExpired'
  | 'notCapillary'
  | 'cardOnly'
  | 'notBySyringe'
  | 'noneLargeEnough'
  | 'notEnough'

/** Whom a needle is chosen for, as far as it changes the advice. */
export type GaugeCase = 'infant' | 'child' | 'teenager' | 'hand' | 'old' | 'adult'

export type CoverageText =
  'notDrawn' | 'empty' | 'volumeUnknown' | 'tooLittle' | 'tryNext' | 'passesOver'

/** The words of a plan in one language. */
export interface PlanTexts {
  /** BCP 47 tag: plural forms and lists follow its rules. */
  readonly language: string
  readonly notices: NoticeTexts
  readonly whyUncovered: Readonly<Record<UncoveredReason, Text>>
  readonly whyTube: Readonly<Record<'specimen' | 'discard' | 'air', Text>>
  /** Why a tube stands where it does among those filled drop by drop. */
  readonly whyDrop: Readonly<Record<DropGroup, string>>
  readonly coverage: Readonly<Record<CoverageText, Text>>
  readonly gauge: Readonly<Record<GaugeCase, Text>>
  readonly needleKind: Readonly<Record<NeedleSet['kind'], string>>
  /** In the place of a source where no limit for blood was applied. */
  readonly blood: Readonly<Record<'noRule' | 'notWorkedOut', string>>
  /** The end of a list that is too long to name everything. */
  readonly more: Text
}
