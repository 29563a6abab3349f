import type { LimitKey } from './policy.ts'

/** Least and most that a limit may be set to, in its own unit. */
export interface LimitRange {
  readonly least: number
  readonly most: number
}

/**
 * Catches slips of the keyboard. Common practice, no source, except that pressure after an artery, attempts a person,
 * warmth on a heel and the age for a bandage may only be stricter than published.
 */
// prettier-ignore
export const LIMIT_RANGES: Readonly<Record<LimitKey, LimitRange>> = {
  bandFirstCue_s:          { least: 5, most: 120 },
  bandSecondCue_s:         { least: 5, most: 120 },
  bandLastCue_s:           { least: 5, most: 120 },
  bandLimit_s:             { least: 20, most: 120 },
  bandAlarmRepeat_s:       { least: 2, most: 15 },
  bandRest_s:              { least: 0, most: 600 },
  drying_s:                { least: 5, most: 300 },
  dryingChlorhexidine_s:   { least: 5, most: 300 },
  dryingIodine_s:          { least: 5, most: 600 },
  dryingAlcoholFree_s:     { least: 5, most: 300 },
  flashWait_s:             { least: 2, most: 60 },
  mixStart_s:              { least: 2, most: 60 },
  mixLate_s:               { least: 10, most: 600 },
  pressure_s:              { least: 30, most: 1200 },
  pressureAnticoagulant_s: { least: 60, most: 3600 },
  pressureArtery_s:        { least: 300, most: 3600 },
  siteWatch_s:             { least: 5, most: 120 },
  bandage_min:             { least: 5, most: 240 },
  attemptsPerPerson_n:     { least: 1, most: 2 },
  clotMost_min:            { least: 30, most: 240 },
  separate_min:            { least: 30, most: 480 },
  faintRest_min:           { least: 5, most: 120 },
  prophylaxisWindow_h:     { least: 1, most: 72 },
  fastingLeast_h:          { least: 0, most: 24 },
  labelWait_min:           { least: 1, most: 60 },
  warmLeast_min:           { least: 1, most: 10 },
  warmMost_min:            { least: 2, most: 15 },
  warmMost_C:              { least: 37, most: 42 },
  heelBelow_mo:            { least: 4, most: 18 },
  smallHeel_kg:            { least: 1, most: 4 },
  childFinger_y:           { least: 2, most: 18 },
  bandageFrom_y:           { least: 2, most: 6 },
  dropsMost_mL:            { least: 0.2, most: 3 },
  cardCircles_n:           { least: 1, most: 10 },
  cardAge_h:               { least: 12, most: 168 },
  cardDry_h:               { least: 1, most: 24 },
  transferMost_s:          { least: 20, most: 180 },
  syringeStays_mL:         { least: 0, most: 2 },
  ownName_y:               { least: 2, most: 12 },
  ownConsent_y:            { least: 10, most: 21 },
}
