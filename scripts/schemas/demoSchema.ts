import * as v from 'valibot'
import { DUE_KINDS, PLACE_KINDS } from '../../src/core/day/listedOrder.ts'
import { ORDER_SCHEMA } from '../../src/app/site/catalogue/schemas.ts'
import { PLAIN_TEXT, SCHEMA_LINK } from './textsLike.ts'

const invented = v.pipe(v.string(), v.includes('(invented)'))
const { order, patient, preparation, needleSet } = ORDER_SCHEMA.entries

/** The demonstration: who and what it shows is invented and says so. */
export const DEMO_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  siteName: invented,
  collector: v.strictObject({ id: PLAIN_TEXT, name: invented, initials: PLAIN_TEXT }),
  patient: v.strictObject({ ...patient.entries, fullName: invented, familyName: invented }),
  order,
  preparation,
  needleSet,
  day: v.array(
    v.strictObject({
      patient: v.strictObject({ ...patient.entries, fullName: invented, familyName: invented }),
      order,
      fasting: v.optional(v.boolean()),
      place: v.optional(v.strictObject({ kind: v.picklist(PLACE_KINDS), text: invented })),
      due: v.optional(
        v.strictObject({
          kind: v.picklist(DUE_KINDS),
          in_min: v.number(),
          tolerance_min: v.optional(v.number()),
        }),
      ),
    }),
  ),
})
