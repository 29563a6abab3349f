import { seriesOf, type Series } from '../../core/record/seriesRecord.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { DrawLogs } from '../draw/drawLogs.ts'

/** A sample that was not drawn within a week belongs to another order. */
const WATCHED_ms = 7 * 86_400_000
/** More than a day's series; each is read from the disk. */
const MOST_DRAWS = 60

export interface SeriesBookDeps {
  readonly logs: Pick<DrawLogs, 'load'>
  readonly now_ms: () => number
}

/** Reads series from the records of their draws: nothing else is kept of them. */
export interface SeriesBook {
  /** Series of these draws with something left to do, the newest first. */
  open(draws: readonly StoredDraw[]): Promise<readonly Series[]>
  /** One series as it stands now. */
  read(id: string, draws: readonly StoredDraw[]): Promise<Series | undefined>
}

export function createSeriesBook({ logs, now_ms }: SeriesBookDeps): SeriesBook {
  async function read(id: string, draws: readonly StoredDraw[]): Promise<Series | undefined> {
    const own = draws.filter(({ series }) => series === id)
    const read = await Promise.all(
      own.map(({ drawId }) => logs.load(drawId).catch(() => undefined)),
    )
    return seriesOf(read.flatMap((log) => log ?? []))
  }
  return {
    read,
    async open(draws) {
      const since_ms = now_ms() - WATCHED_ms
      const recent = draws
        .filter(({ series, opened_ms }) => series !== undefined && opened_ms >= since_ms)
        .slice(0, MOST_DRAWS)
      const ids = [...new Set(recent.flatMap(({ series }) => series ?? []))]
      const all = await Promise.all(ids.map((id) => read(id, draws)))
      return all.filter((series): series is Series => series !== undefined && !series.isOver)
    },
  }
}
