import { createTurns } from '../../core/basics/turns.ts'
import type { StockTube, TubeRow } from '../../core/catalogue/catalogue.ts'
import {
  countDraws,
  drawnSince,
  type CountedDraw,
  type CountedStock,
} from '../../core/catalogue/countedStock.ts'
import { isOtherSupply } from '../../core/catalogue/otherSupplies.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { readKeptStock } from './keptStock.ts'

export const STOCK_KEY = 'stock'

/** A draw that was opened so long before somebody counted was closed before as well. */
const LONGEST_DRAW_ms = 86_400_000

/** The tubes, sets and labels that the site has told of, counted down as they are used. */
export interface OwnStock {
  load(): Promise<void>
  /** Lots of tubes that are in the catalogue, sets and labels; `undefined` where the site has brought in none. */
  current(): readonly StockTube[] | undefined
  /** Whether a draw may have used something that is not taken off yet; read its log then. */
  mayTake(draw: { readonly drawId: string; readonly opened_ms: number }): boolean
  /** Takes a stock that was counted now in place of the one before. */
  keep(lots: readonly StockTube[], now_ms: number): Promise<void>
  /** Nobody counts any more. */
  forget(): Promise<void>
  /** Takes off what draws used; once, however often it is told. */
  countDown(draws: readonly CountedDraw[]): Promise<void>
  /** The same for draws of other devices, which may be told long after they were closed. */
  countDownOthers(draws: readonly CountedDraw[]): Promise<void>
}

export function createOwnStock(store: SettingsStore, tubes: readonly TubeRow[]): OwnStock {
  const known = new Set(tubes.map(({ code }) => code))
  let kept: CountedStock | undefined

  const inTurn = createTurns()

  async function read(): Promise<void> {
    kept = readKeptStock(await store.read(STOCK_KEY))
  }

  async function write(next: CountedStock): Promise<void> {
    await store.write(STOCK_KEY, JSON.stringify(next))
    kept = next
  }

  const count = (
    draws: readonly CountedDraw[],
    which: (stock: CountedStock) => readonly CountedDraw[],
  ): Promise<void> =>
    inTurn(async () => {
      if (draws.length === 0) return
      // Another page may have counted meanwhile.
      await read()
      if (!kept) return
      const next = countDraws(kept, which(kept), tubes)
      if (next.counted.length !== kept.counted.length || next.since_ms !== kept.since_ms) {
        await write(next)
      }
    })

  return {
    load: () => inTurn(read),
    current: () => kept?.lots.filter((lot) => known.has(lot.tubeCode) || isOtherSupply(lot, tubes)),
    mayTake: ({ drawId, opened_ms }) =>
      kept !== undefined &&
      opened_ms > kept.since_ms - LONGEST_DRAW_ms &&
      !kept.counted.some((draw) => draw.drawId === drawId),
    keep: (lots, now_ms) =>
      inTurn(() => write({ lots: [...lots], since_ms: now_ms, counted: kept?.counted ?? [] })),
    forget: () =>
      inTurn(async () => {
        await store.write(STOCK_KEY, '')
        kept = undefined
      }),
    countDown: (draws) => count(draws, () => draws),
    countDownOthers: (draws) => count(draws, (stock) => drawnSince(stock, draws)),
  }
}
