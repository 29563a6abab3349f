import type { Arm } from './order.ts'

/** From what a time point is counted. `firstDrawn` is known of itself; the others a person tells. */
export const MOMENTS = [
  'drinkStarted',
  'drinkFinished',
  'doseGiven',
  'infusionEnded',
  'nextDose',
  'firstDrawn',
] as const
export type Moment = (typeof MOMENTS)[number]

/** Moments that only a person can tell. */
export const TOLD_MOMENTS = [
  'drinkStarted',
  'drinkFinished',
  'doseGiven',
  'infusionEnded',
] as const satisfies readonly Moment[]
export type ToldMoment = (typeof TOLD_MOMENTS)[number]

/** Those, and the one that is told ahead: when the next dose is due, before which a trough is drawn. */
export const NOTED_MOMENTS = [...TOLD_MOMENTS, 'nextDose'] as const satisfies readonly Moment[]
export type NotedMoment = (typeof NOTED_MOMENTS)[number]

/** What keeps a sitting apart from the one before it, besides the time. */
export const APART = ['otherSite', 'newIdentity'] as const
export type Apart = (typeof APART)[number]

/** One draw of a series as the catalogue describes it. */
export interface TimePoint {
  /** As it stands on the label: `fasting`, `1 h`, `set 2`. */
  readonly point: string
  /** Catalogue codes. */
  readonly tests: readonly string[]
  /** Missing: no due time. */
  readonly from?: Moment
  /** Minutes after `from`; before it where they are less than none. */
  readonly after_min?: number
  /** How much earlier or later still counts as in time; missing: not earlier, and never too late. */
  readonly tolerance_min?: number
  readonly apart?: Apart
}

/** A time point within the series of an order. */
export interface SittingPart extends TimePoint {
  /** Code of the series in the catalogue. */
  readonly code: string
  readonly name: string
  /** From 1. */
  readonly number: number
  readonly of: number
}

/** After what in one of its draws the rest of a series waits for a person's word. */
export const HOLD_WHYS = [
  'faint',
  'swelling',
  'brightBlood',
  'sharpPain',
  'bleedingContinues',
  'stopEverything',
  'consentRefused',
  'consentWithdrawn',
  'identityMismatch',
] as const
export type HoldWhy = (typeof HOLD_WHYS)[number]

/** Why the rest of a series waits. */
export interface SeriesHold {
  /** The draw in which it happened. */
  readonly drawId: string
  readonly why: HoldWhy
  /** The how manieth of its kind in that draw, from 1. */
  readonly nth: number
}

/** Somebody named let the rest of a series be drawn all the same. */
export interface SeriesGoAhead {
  readonly holds: readonly SeriesHold[]
  readonly by: string
  readonly why: string
}

/** When a moment was, ms since 1970 UTC. */
export interface MomentTime {
  readonly moment: Moment
  readonly at_ms: number
}

/** Where a needle was. */
export interface DrawnSite {
  readonly arm: Arm
  /** As the draw calls it. */
  readonly vein?: string
}

/** A rehearsed series: by which script, and how many minutes an hour of waiting lasts in it. */
export interface SittingPractice {
  readonly script: string
  readonly hour_min: number
}

/** What a draw is within the series of its order. The order number is the order's own. */
export interface DrawSitting {
  /** Id of the draw with which the series began; empty in a rehearsal, which is one draw. */
  readonly series: string
  /** Time points of this draw; the first draw may begin several series. */
  readonly parts: readonly SittingPart[]
  /** What is to come after this draw. */
  readonly later?: readonly SittingPart[]
  /** Where the draws of the series before this one were made; told where it has to be another site. */
  readonly sitesBefore?: readonly DrawnSite[]
  /** Moments that were known when the draw was opened. */
  readonly moments?: readonly MomentTime[]
  /** What the series was held for before this draw, and who let it go on. */
  readonly wentOn?: readonly SeriesGoAhead[]
  /** Only of an invented patient: the waits are shorter than they are. */
  readonly practice?: SittingPractice
}

/** What tells one hold of a series from another. */
export const holdKey = ({ drawId, why, nth }: SeriesHold): string => `${drawId}/${why}/${nth}`

/** `ogtt75/2`: what tells one sitting of an order from another. */
export const sittingKey = ({ code, number }: Pick<SittingPart, 'code' | 'number'>): string =>
  `${code}/${number}`
