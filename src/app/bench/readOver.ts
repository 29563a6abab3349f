import type { DayAct } from '../../core/day/dayState.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'

/** Draws of other devices, each read again only when it was written on or something was done to its tubes. */
export interface ReadOver<R> {
  of(log: DrawLog): R
  forget(): void
}

/**
 * In a clinic with many chairs something comes every second, and the draws of three days are on the bench: to read all
 * of them each time would leave the page no time for anything else.
 * @param read reads a draw with the acts of the day laid over it
 */
export function createReadOver<R>(
  read: (log: DrawLog) => R,
  book: { state(): { readonly acts: readonly DayAct[] } },
): ReadOver<R> {
  let known = new Map<string, { readonly log: DrawLog; readonly acts: string; readonly read: R }>()
  let indexed: readonly DayAct[] = []
  let byDraw = new Map<string, string>()

  /** Which acts lie over which draw. */
  function actsOver(drawId: string): string {
    const { acts } = book.state()
    if (acts !== indexed) {
      indexed = acts
      byDraw = new Map()
      for (const { id, takenBack, specimens } of acts) {
        if (takenBack) continue
        for (const { drawId } of specimens) byDraw.set(drawId, `${byDraw.get(drawId) ?? ''} ${id}`)
      }
    }
    return byDraw.get(drawId) ?? ''
  }

  return {
    of: (log) => {
      const acts = actsOver(log.drawId)
      const before = known.get(log.drawId)
      if (before?.log === log && before.acts === acts) return before.read
      const now = read(log)
      known.set(log.drawId, { log, acts, read: now })
      return now
    },
    forget: () => {
      known = new Map()
    },
  }
}
