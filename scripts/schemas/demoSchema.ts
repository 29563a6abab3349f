import * as v from 'valibot'
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
})
