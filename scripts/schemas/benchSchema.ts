import * as v from 'valibot'
import { ADDITIVES } from '../../src/core/catalogue/additives.ts'
import { STORE_WHENS } from '../../src/core/bench/benchRules.ts'
import { STORE_PLACES } from '../../src/core/protocol/benchEvents.ts'
import { SCHEMA_LINK } from './textsLike.ts'

const word = v.pipe(v.string(), v.minLength(1))
const positive = v.pipe(v.number(), v.gtValue(0))

export const BENCH_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  version: word,
  spins: v.array(
    v.strictObject({
      additives: v.array(v.picklist(ADDITIVES)),
      g: positive,
      swing_min: positive,
      fixed_min: positive,
      source: word,
    }),
  ),
  stores: v.array(
    v.strictObject({
      when: v.picklist(STORE_WHENS),
      where: v.picklist(STORE_PLACES),
      never: v.array(v.picklist(STORE_PLACES)),
      source: word,
    }),
  ),
  clotLonger_min: v.pipe(v.number(), v.minValue(0)),
  clotLongerSource: word,
})
