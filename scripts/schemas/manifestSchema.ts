import * as v from 'valibot'
import { CARRIED_AT } from '../../src/core/catalogue/laboratories.ts'
import { PRIORITIES, SEXES } from '../../src/core/order/order.ts'
import { STORE_PLACES } from '../../src/core/protocol/benchEvents.ts'

/** A local time to the second with its offset, ISO 8601. */
const TIME = v.pipe(
  v.string(),
  v.regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d{1,3})?(Z|[+-]\d{2}:\d{2})$/),
)
const COUNT = v.pipe(v.number(), v.integer(), v.minValue(0))
const NUMBER = v.pipe(v.string(), v.minLength(1))

const SPECIMEN = v.strictObject({
  number: NUMBER,
  orderNumber: v.string(),
  familyName: v.string(),
  givenNames: v.string(),
  birthDate: v.pipe(v.string(), v.regex(/^\d{4}-\d{2}-\d{2}$/)),
  recordNumber: v.string(),
  sex: v.optional(v.picklist(SEXES)),
  tube: v.string(),
  kind: v.string(),
  tests: v.array(v.string()),
  collected: TIME,
  collectedBy: v.string(),
  priority: v.picklist(PRIORITIES),
  orderedBy: v.optional(v.string()),
  spun: v.array(
    v.strictObject({
      started: TIME,
      ended: v.optional(TIME),
      g: v.optional(v.number()),
      spin_min: v.optional(v.number()),
    }),
  ),
  separated: v.optional(TIME),
  portions: v.optional(COUNT),
  stored: v.optional(v.strictObject({ where: v.picklist(STORE_PLACES), at: TIME })),
  separateBy: v.optional(TIME),
  limit: v.optional(TIME),
  passed: v.array(v.string()),
})

/** What goes with a pack as a file: for who reads it by machine, at the laboratory. */
export const MANIFEST_SCHEMA = v.strictObject({
  format: v.literal('stillhand-manifest'),
  version: v.literal(1),
  practice: v.boolean(),
  pack: v.string(),
  from: v.string(),
  laboratory: v.string(),
  carriedAt: v.array(v.picklist(CARRIED_AT)),
  dark: v.boolean(),
  courier: v.string(),
  sent: TIME,
  count: COUNT,
  specimens: v.array(SPECIMEN),
  missing: v.array(NUMBER),
  missingSaidBy: v.string(),
  unknown: v.array(NUMBER),
  /** SHA-256 of the JSON without it, in the same order and without spaces. */
  checkSum: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
})
