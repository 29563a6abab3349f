import { FILLS_BY } from '../catalogue/catalogue.ts'
import { ADDITIVES } from '../catalogue/additives.ts'
import {
  AGES_TOLD,
  ANTICOAGULANTS,
  ANTISEPTIC_ALLERGIES,
  ARM_RESTRICTIONS,
  ARMS,
  DECISION_SUBJECTS,
  FEEDINGS,
  GAUGES,
  NEEDLE_KINDS,
  PRIORITIES,
  SEXES,
  SYRINGES_mL,
  WALLS,
} from '../order/order.ts'
import { APART, HOLD_WHYS, MOMENTS } from '../order/sitting.ts'
import { SKIN_PLACES } from '../order/collecting.ts'
import { TUBE_ROLES } from '../plan/plan.ts'
import { FIRST_LIMIT_KEYS, LIMIT_KEYS } from '../policy/policy.ts'
import {
  count,
  flag,
  listOf,
  number,
  oneOf,
  oneOrMore,
  optional,
  shapeOf,
  text,
  time,
} from './shape.ts'

export const patientShape = shapeOf({
  fullName: text,
  familyName: optional(text),
  givenNames: optional(text),
  birthDate: text,
  recordNumber: text,
  sex: optional(oneOf(SEXES)),
  weight_kg: optional(number),
  haematocrit_pct: optional(number),
})

export const orderShape = shapeOf({
  orderNumber: text,
  tests: listOf(text),
  provider: optional(text),
  providerNumber: optional(text),
  orderedAt: optional(text),
  ward: optional(text),
  visitNumber: optional(text),
  bandNumber: optional(text),
  priority: oneOf(PRIORITIES),
  parts: optional(
    listOf(
      shapeOf({
        orderNumber: text,
        tests: listOf(text),
        provider: optional(text),
        providerNumber: optional(text),
        orderedAt: optional(text),
        priority: oneOf(PRIORITIES),
        laboratory: optional(text),
        listed: optional(text),
      }),
    ),
  ),
})

export const recollectsShape = shapeOf({
  drawId: text,
  tubeIds: listOf(text),
  reason: text,
  note: optional(text),
})

const restriction = optional(oneOf(ARM_RESTRICTIONS))

export const preparationShape = shapeOf({
  fasted_h: optional(number),
  anticoagulant: oneOf(ANTICOAGULANTS),
  latexAllergy: optional(flag),
  antisepticAllergy: optional(oneOrMore(oneOf(ANTISEPTIC_ALLERGIES))),
  restrictions: shapeOf({ left: restriction, right: restriction }),
  faintedBefore: optional(flag),
  earlierDraws_mL: optional(number),
  lastDoses: optional(
    listOf(shapeOf({ test: text, at: optional(text), least_h: optional(number) })),
  ),
  bornAt: optional(text),
  ageTold: optional(oneOf(AGES_TOLD)),
  feeding: optional(oneOf(FEEDINGS)),
  lastFeedAt: optional(text),
  transfused: optional(flag),
})

export const needleSetShape = shapeOf({
  kind: oneOf(NEEDLE_KINDS),
  gauge: oneOf(GAUGES),
  wall: optional(oneOf(WALLS)),
  needle_mm: number,
  tubing_mm: number,
  tubingBore_mm: number,
  syringe_mL: optional(oneOf(SYRINGES_mL)),
})

export const approvalShape = shapeOf({
  about: oneOf(DECISION_SUBJECTS),
  by: text,
  reason: text,
  at_ms: time,
})

const partShape = shapeOf({
  code: text,
  name: text,
  number: count,
  of: count,
  point: text,
  tests: listOf(text),
  from: optional(oneOf(MOMENTS)),
  after_min: optional(number),
  tolerance_min: optional(number),
  apart: optional(oneOf(APART)),
})

export const goAheadShape = shapeOf({
  holds: listOf(shapeOf({ drawId: text, why: oneOf(HOLD_WHYS), nth: count })),
  by: text,
  why: text,
})

export const sittingShape = shapeOf({
  series: text,
  parts: listOf(partShape),
  later: optional(listOf(partShape)),
  sitesBefore: optional(listOf(shapeOf({ arm: oneOf(ARMS), vein: optional(text) }))),
  moments: optional(listOf(shapeOf({ moment: oneOf(MOMENTS), at_ms: time }))),
  wentOn: optional(listOf(goAheadShape)),
  practice: optional(shapeOf({ script: text, hour_min: number })),
})

export const collectorShape = shapeOf({ id: text, name: text, initials: text })

const noticeShape = shapeOf({ code: text, text, source: optional(text) })

const tubeShape = shapeOf({
  id: text,
  tubeCode: text,
  name: text,
  role: oneOf(TUBE_ROLES),
  additive: oneOf(ADDITIVES),
  closure: text,
  nominal_mL: number,
  planned_mL: optional(number),
  least_mL: number,
  inversions: shapeOf({ min: count, max: count }),
  fill: shapeOf({ early_s: number, expected_s: number, late_s: number }),
  tests: listOf(text),
  handling: listOf(text),
  fillsBy: optional(oneOf(FILLS_BY)),
  dead_mL: optional(number),
  clot_min: optional(number),
  timeLimit_min: optional(number),
  timeLimitOf: optional(text),
  lot: optional(text),
  expires: optional(text),
  reason: text,
})

export const planShape = shapeOf({
  tubes: listOf(tubeShape),
  problems: listOf(noticeShape),
  warnings: listOf(noticeShape),
  uncovered: listOf(shapeOf({ test: text, reason: text })),
  blood: shapeOf({ draw_mL: number, earlier_mL: number, source: text }),
  advises: optional(oneOf(SKIN_PLACES)),
  band: shapeOf({ predicted_s: number, offDuring: optional(text) }),
})

const limitShape = shapeOf({ value: number, source: text, backing: text })

export const policyShape = shapeOf({
  version: text,
  limits: shapeOf({
    ...Object.fromEntries(LIMIT_KEYS.map((key) => [key, optional(limitShape)])),
    ...Object.fromEntries(FIRST_LIMIT_KEYS.map((key) => [key, limitShape])),
  }),
})

export const fillCorrectionShape = shapeOf({
  set: text,
  factor: number,
  by: text,
  at_ms: time,
  tubes: count,
})

export const policyChangeShape = shapeOf({ key: text, from: number, to: number })
