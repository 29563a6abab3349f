import * as v from 'valibot'
import { ADDITIVES, TUBE_TRAITS, type TubeTrait } from '../../../core/catalogue/additives.ts'
import { FILLS_BY, SPECIMEN_KINDS, TUBE_KINDS } from '../../../core/catalogue/catalogue.ts'
import { NORM_KEYS, type NormKey } from '../../../core/catalogue/norms.ts'
import { SKIN_PLACES } from '../../../core/order/collecting.ts'
import {
  ANTICOAGULANTS,
  ANTISEPTIC_ALLERGIES,
  ARM_RESTRICTIONS,
  GAUGES,
  NEEDLE_KINDS,
  SYRINGES_mL,
  PRIORITIES,
  SEXES,
  WALLS,
} from '../../../core/order/order.ts'
import { BACKINGS } from '../../../core/policy/policy.ts'
import { CARRIED_AT } from '../../../core/catalogue/laboratories.ts'
import { HANDLING } from '../../../core/catalogue/handling.ts'
import { APART, MOMENTS } from '../../../core/order/sitting.ts'
import { readText, type TextUse } from '../../../core/text/readText.ts'

/**
 * Shapes of the files a site may edit; `issueText.ts` words what does not fit. What the values mean is checked by
 * `core/catalogue/catalogueFaults.ts`.
 */

const text = v.pipe(v.string(), v.maxLength(2000))
const word = v.pipe(
  v.string(),
  v.minLength(1),
  v.maxLength(200),
  // Something that can be read: a text of signs that nobody sees would become empty later.
  v.check((value) => /[\p{L}\p{N}]/u.test(value)),
)
/** A name or a number as `readText` would keep it: nothing in it that nobody sees, no space at its ends. */
const readable = (use: TextUse, least = 0) =>
  v.pipe(
    v.string(),
    v.minLength(least),
    v.maxLength(200),
    v.check((value) => {
      const read = readText(value, use)
      return read.ok && read.value === value
    }),
  )
/** `2026-11-25T06:00`. */
const localMinute = v.pipe(v.string(), v.regex(/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/))
const date = v.pipe(v.string(), v.regex(/^\d{4}-\d{2}-\d{2}$/))
const number = v.pipe(v.number(), v.finite())
const positive = v.pipe(v.number(), v.finite(), v.gtValue(0))
const notNegative = v.pipe(v.number(), v.finite(), v.minValue(0))
const backing = v.picklist(BACKINGS)
const schemaLink = { $schema: v.exactOptional(v.string()) }

const testRow = v.strictObject({
  code: word,
  name: word,
  aliases: v.array(word),
  accepts: v.array(
    v.strictObject({ kind: v.picklist(SPECIMEN_KINDS), additive: v.picklist(ADDITIVES) }),
  ),
  least_mL: positive,
  preferred_mL: positive,
  sharing: word,
  transfusion: v.exactOptional(v.boolean()),
  notCapillary: v.exactOptional(v.literal(true)),
  neverIn: v.exactOptional(v.array(v.picklist(Object.keys(TUBE_TRAITS) as TubeTrait[]))),
  handling: v.array(v.picklist(HANDLING)),
  fasting: v.boolean(),
  timeLimit_min: v.exactOptional(positive),
  timeLimitHeparin_min: v.exactOptional(positive),
  timing: v.exactOptional(word),
  loinc: v.exactOptional(word),
  localCode: v.exactOptional(word),
  source: text,
})

const tubeRow = v.strictObject({
  code: word,
  name: word,
  additive: v.picklist(ADDITIVES),
  nominal_mL: positive,
  inner_mL: positive,
  kind: v.optional(v.picklist(TUBE_KINDS), 'evacuated'),
  fillsBy: v.optional(v.picklist(FILLS_BY), 'vacuum'),
  dead_mL: v.optional(notNegative, 0),
  leastFill_pct: positive,
  partialFill: v.exactOptional(v.boolean()),
  inversionsMin: notNegative,
  inversionsMax: notNegative,
  clot_min: v.exactOptional(positive),
  closure: text,
  localCode: v.exactOptional(word),
  source: text,
})

const timePoint = v.strictObject({
  point: v.pipe(readable('name', 1), v.maxLength(30)),
  tests: v.pipe(v.array(word), v.minLength(1)),
  from: v.exactOptional(v.picklist(MOMENTS)),
  after_min: v.exactOptional(v.pipe(v.number(), v.minValue(-1440), v.maxValue(10_080))),
  tolerance_min: v.exactOptional(v.pipe(notNegative, v.maxValue(1440))),
  apart: v.exactOptional(v.picklist(APART)),
})

const seriesRow = v.strictObject({
  code: word,
  name: word,
  aliases: v.array(word),
  recognized: v.exactOptional(v.boolean()),
  loinc: v.exactOptional(word),
  localCode: v.exactOptional(word),
  sittings: v.pipe(v.array(timePoint), v.minLength(1), v.maxLength(24)),
  source: text,
})

const doseRow = v.strictObject({
  tests: v.array(word),
  least_h: v.exactOptional(positive),
  source: text,
})

const laboratoryRow = v.strictObject({
  id: readable('identifier', 1),
  name: word,
  tests: v.union([v.literal('rest'), v.array(word)]),
  carriedAt: v.strictObject({
    serum: v.picklist(CARRIED_AT),
    plasma: v.picklist(CARRIED_AT),
    blood: v.picklist(CARRIED_AT),
    culture: v.picklist(CARRIED_AT),
  }),
  pickUps: v.pipe(v.array(word), v.maxLength(24)),
  most_h: v.pipe(positive, v.maxValue(240)),
  source: text,
})

export const LABORATORIES_SCHEMA = v.strictObject({
  ...schemaLink,
  version: word,
  laboratories: v.pipe(v.array(laboratoryRow), v.minLength(1), v.maxLength(100)),
})

const searchTables = {
  common: v.array(word),
  names: v.pipe(
    v.array(
      v.strictObject({
        words: v.pipe(v.array(readable('name', 1)), v.minLength(1)),
        tests: v.pipe(v.array(word), v.minLength(1)),
      }),
    ),
    v.maxLength(2000),
  ),
}

export const SEARCH_SCHEMA = v.strictObject({ ...schemaLink, version: word, ...searchTables })

const seriesTables = { series: v.array(seriesRow), doses: v.array(doseRow) }

export const SERIES_SCHEMA = v.strictObject({ ...schemaLink, version: word, ...seriesTables })

export const CATALOGUE_SCHEMA = v.strictObject({
  ...schemaLink,
  version: readable('identifier', 1),
  tests: v.array(testRow),
  tubes: v.array(tubeRow),
  series: v.exactOptional(seriesTables.series),
  doses: v.exactOptional(seriesTables.doses),
  search: v.exactOptional(v.strictObject(searchTables)),
})

const backed = { source: word, backing }
const norm = v.strictObject({ value: number, ...backed })

export const NORMS_SCHEMA = v.strictObject({
  ...schemaLink,
  values: v.strictObject(
    Object.fromEntries(NORM_KEYS.map((key) => [key, norm])) as Record<NormKey, typeof norm>,
  ),
  haematocrit: v.array(
    v.strictObject({
      fromAge_days: notNegative,
      sex: v.picklist(['female', 'male', 'any']),
      pct: positive,
      ...backed,
    }),
  ),
  bores: v.array(
    v.strictObject({ gauge: positive, wall: v.picklist(WALLS), bore_mm: positive, ...backed }),
  ),
})

export const BLOOD_LIMITS_SCHEMA = v.strictObject({
  ...schemaLink,
  version: word,
  weightNeededBelow_y: notNegative,
  period_days: positive,
  bodyVolume: v.array(
    v.strictObject({ fromAge_days: notNegative, mL_per_kg: positive, ...backed }),
  ),
  rules: v.array(
    v.strictObject({
      id: word,
      per: v.picklist(['draw', 'period']),
      fromAge_y: notNegative,
      belowAge_y: v.exactOptional(positive),
      percentOfBody: v.exactOptional(positive),
      mL_per_kg: v.exactOptional(positive),
      mL: v.exactOptional(positive),
      mLByWeight: v.exactOptional(v.array(v.strictObject({ upTo_kg: positive, mL: positive }))),
      whenPassed: v.picklist(['stop', 'warn']),
      ...backed,
    }),
  ),
})

export const PREFERENCES_SCHEMA = v.strictObject({
  ...schemaLink,
  version: word,
  preferences: v.array(
    v.strictObject({
      id: word,
      tests: v.array(word),
      additives: v.exactOptional(v.array(v.picklist(ADDITIVES))),
      ownTube: v.exactOptional(v.boolean()),
      ...backed,
    }),
  ),
})

const restriction = v.exactOptional(v.picklist(ARM_RESTRICTIONS))

/** An order with what the planner needs to know of the patient. Numbers are checked for sense by the planner. */
export const ORDER_SCHEMA = v.strictObject({
  ...schemaLink,
  order: v.strictObject({
    orderNumber: readable('identifier'),
    tests: v.pipe(v.array(word), v.maxLength(1000)),
    provider: v.exactOptional(readable('name')),
    providerNumber: v.exactOptional(readable('identifier')),
    orderedAt: v.exactOptional(readable('identifier')),
    ward: v.exactOptional(readable('name')),
    visitNumber: v.exactOptional(readable('identifier')),
    bandNumber: v.exactOptional(readable('identifier')),
    priority: v.picklist(PRIORITIES),
  }),
  patient: v.strictObject({
    fullName: readable('name'),
    familyName: v.exactOptional(readable('name')),
    givenNames: v.exactOptional(readable('name')),
    birthDate: date,
    recordNumber: readable('identifier'),
    sex: v.exactOptional(v.picklist(SEXES)),
    weight_kg: v.exactOptional(number),
    haematocrit_pct: v.exactOptional(number),
  }),
  preparation: v.strictObject({
    fasted_h: v.exactOptional(v.pipe(notNegative, v.maxValue(1000))),
    anticoagulant: v.picklist(ANTICOAGULANTS),
    latexAllergy: v.exactOptional(v.boolean()),
    antisepticAllergy: v.exactOptional(
      v.union([v.picklist(ANTISEPTIC_ALLERGIES), v.array(v.picklist(ANTISEPTIC_ALLERGIES))]),
    ),
    restrictions: v.strictObject({ left: restriction, right: restriction }),
    faintedBefore: v.exactOptional(v.boolean()),
    earlierDraws_mL: v.exactOptional(number),
    lastDoses: v.exactOptional(
      v.pipe(
        v.array(
          v.strictObject({
            test: word,
            at: v.exactOptional(localMinute),
            least_h: v.exactOptional(positive),
          }),
        ),
        v.maxLength(100),
      ),
    ),
  }),
  needleSet: v.strictObject({
    kind: v.picklist(NEEDLE_KINDS),
    gauge: v.picklist(GAUGES),
    wall: v.exactOptional(v.picklist(WALLS)),
    needle_mm: number,
    tubing_mm: number,
    tubingBore_mm: number,
    syringe_mL: v.exactOptional(v.picklist(SYRINGES_mL)),
  }),
  /** A vein where it is absent. */
  collecting: v.exactOptional(v.picklist(SKIN_PLACES)),
  /** Tubes on hand; the site's own stock file when absent. */
  stock: v.exactOptional(
    v.array(
      v.strictObject({ tubeCode: word, lot: readable('identifier'), expires: date, count: number }),
    ),
  ),
  today: v.exactOptional(date),
  bodyTemperature_C: v.exactOptional(number),
})
