import * as v from 'valibot'
import type { StockTube, TubeRow } from '../../core/catalogue/catalogue.ts'
import { usedTubes, type UsedTube } from '../../core/record/usedTubes.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'

const STOCK_KEY = 'stock'
/** More draws than a device has open while a page can still be told of their close twice. */
const MOST_COUNTED = 500

const KEPT = v.object({
  lots: v.array(
    v.object({
      tubeCode: v.string(),
      lot: v.string(),
      expires: v.string(),
      count: v.pipe(v.number(), v.integer(), v.minValue(0)),
    }),
  ),
  counted: v.array(v.string()),
})
type Kept = v.InferOutput<typeof KEPT>

/** The tubes that the site has told of, counted down as they are used. */
export interface OwnStock {
  load(): Promise<void>
  /** Lots of tubes that are in the catalogue; `undefined` where the site has brought in none. */
  current(): readonly StockTube[] | undefined
  /** Takes a counted stock in place of the one before. */
  keep(lots: readonly StockTube[]): Promise<void>
  /** Nobody counts any more. */
  forget(): Promise<void>
  /** Takes off what a closed draw of a real patient used; once, however often it is told. */
  countDown(log: DrawLog): Promise<void>
}

export function createOwnStock(store: SettingsStore, tubes: readonly TubeRow[]): OwnStock {
  const known = new Set(tubes.map(({ code }) => code))
  let kept: Kept | undefined
  let turn: Promise<unknown> = Promise.resolve()

  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = turn.then(work)
    turn = next.catch(() => undefined)
    return next
  }

  async function read(): Promise<void> {
    kept = readKept(await store.read(STOCK_KEY))
  }

  async function write(next: Kept): Promise<void> {
    await store.write(STOCK_KEY, JSON.stringify(next))
    kept = next
  }

  return {
    load: () => inTurn(read),
    current: () => kept?.lots.filter(({ tubeCode }) => known.has(tubeCode)),
    keep: (lots) => inTurn(() => write({ lots: [...lots], counted: kept?.counted ?? [] })),
    forget: () =>
      inTurn(async () => {
        await store.write(STOCK_KEY, '')
        kept = undefined
      }),
    countDown: (log) =>
      inTurn(async () => {
        const opened = log.entries[0]?.event
        if (!isClosed(log) || (opened?.type === 'drawOpened' && opened.invented)) return
        // Another page may have counted meanwhile.
        await read()
        if (!kept || kept.counted.includes(log.drawId)) return
        await write({
          lots: without(kept.lots, usedTubes(log)),
          counted: [...kept.counted, log.drawId].slice(-MOST_COUNTED),
        })
      }),
  }
}

function readKept(json: string | undefined): Kept | undefined {
  const data = json ? parseJson(json) : undefined
  if (!data?.ok) return undefined
  const read = v.safeParse(KEPT, data.value)
  return read.success ? read.output : undefined
}

function without(lots: Kept['lots'], used: readonly UsedTube[]): Kept['lots'] {
  return lots.map((lot) => {
    const gone = used.filter((tube) => tube.tubeCode === lot.tubeCode && tube.lot === lot.lot)
    return { ...lot, count: Math.max(0, lot.count - gone.length) }
  })
}
