import * as v from 'valibot'
import type { CountedStock } from '../../core/catalogue/countedStock.ts'
import { parseJson } from '../../core/text/parseJson.ts'

const GONE = v.object({ code: v.string(), lot: v.optional(v.string()) })
const COUNTED = v.object({ drawId: v.string(), closed_ms: v.number(), used: v.array(GONE) })
/** As it was kept before what a draw used was kept with it. */
const ID_ALONE = v.pipe(
  v.string(),
  v.transform((drawId) => ({ drawId, closed_ms: 0, used: [] })),
)

const KEPT = v.object({
  lots: v.array(
    v.object({
      tubeCode: v.string(),
      lot: v.string(),
      expires: v.string(),
      count: v.pipe(v.number(), v.integer(), v.minValue(0)),
    }),
  ),
  since_ms: v.optional(v.number(), Number.MAX_SAFE_INTEGER),
  counted: v.array(v.union([COUNTED, ID_ALONE])),
})

/** A stock as it is kept on a device and given to others; `undefined` for what is none. */
export function readKeptStock(json: string | undefined): CountedStock | undefined {
  const data = json ? parseJson(json) : undefined
  if (!data?.ok) return undefined
  const read = v.safeParse(KEPT, data.value)
  return read.success ? read.output : undefined
}
