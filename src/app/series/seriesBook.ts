import { seriesOf, type Series } from '../../core/record/seriesRecord.ts'
import type { StoredDraw } from '../../ports/logStore.ts'
import type { DrawLogs } from '../draw/drawLogs.ts'

export interface SeriesBookDeps {
  readonly logs: Pick<DrawLogs, 'load'>
}

/** Reads series from the records of their draws: nothing else is kept of them. */
export interface SeriesBook {
  /** Series of these draws with something left to do, however old, the newest first. */
  open(draws: readonly StoredDraw[]): Promise<readonly Series[]>
  /** One series as it stands now. */
  read(id: string, draws: readonly StoredDraw[]): Promise<Series | undefined>
}

export function createSeriesBook({ logs }: SeriesBookDeps): SeriesBook {
  /** How many draws a series had when it was over: it is read again only where it has got another one. */
  const over = new Map<string, number>()

  async function read(id: string, draws: readonly StoredDraw[]): Promise<Series | undefined> {
    const own = draws.filter(({ series }) => series === id)
    const read = await Promise.all(
      own.map(({ drawId }) => logs.load(drawId).catch(() => undefined)),
    )
    return seriesOf(read.flatMap((log) => log ?? []))
  }

  async function openOne(id: string, draws: readonly StoredDraw[]): Promise<readonly Series[]> {
    const own = draws.filter((draw) => draw.series === id)
    if (over.get(id) === own.length) return []
    const series = await read(id, own)
    if (!series) return []
    if (!series.isOver) return [series]
    // What is not closed may still be taken back.
    if (own.every(({ closed }) => closed)) over.set(id, own.length)
    return []
  }

  return {
    read,
    async open(draws) {
      const ids = [...new Set(draws.flatMap(({ series }) => series ?? []))]
      const all = await Promise.all(ids.map((id) => openOne(id, draws)))
      return all.flat()
    },
  }
}
