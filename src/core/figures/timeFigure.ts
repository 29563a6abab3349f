import type { DrawMeasures } from './drawMeasures.ts'
import { isEnough } from './enough.ts'
import { median, quantile } from './middle.ts'
import { runChart, type RunChart } from './runChart.ts'
import { RUNS_FROM_n } from './runsLimits.ts'
import { xmrChart, type XmrChart } from './xmrChart.ts'

/** Lengths of time, s. */
export const TIMES = ['band', 'needleToLast'] as const
export type TimeId = (typeof TIMES)[number]

const TAKEN: Readonly<Record<TimeId, (draw: DrawMeasures) => readonly number[]>> = {
  band: ({ bands }) => bands.flatMap(({ length_s }) => length_s ?? []),
  needleToLast: ({ punctures }) => punctures.flatMap(({ needleToLast_s }) => needleToLast_s ?? []),
}

export interface TimePoint {
  readonly from: string
  readonly n: number
  readonly median_s: number | undefined
}

/** One length of time over the stretches of a span: the middle of each, and limits for these middles. */
export interface TimeFigure {
  readonly id: TimeId
  readonly n: number
  /** Of all, s; `undefined` where there are too few to tell. */
  readonly median_s: number | undefined
  readonly quartiles_s: readonly [number, number] | undefined
  readonly points: readonly TimePoint[]
  readonly run: RunChart
  /** Of the middles, one after the other; `undefined` of fewer than ten. */
  readonly limits: XmrChart | undefined
}

/**
 * The middle time of each stretch. Middles are taken one by one as individual values (individuals chart), which is
 * right where each is of about as many draws.
 */
export function timeFigure(
  id: TimeId,
  byStretch: ReadonlyMap<string, readonly DrawMeasures[]>,
): TimeFigure {
  const points = [...byStretch].map(
    ([from, draws]): TimePoint & { readonly all: readonly number[] } => {
      const all = draws.flatMap(TAKEN[id])
      return { from, n: all.length, median_s: median(all), all }
    },
  )
  const all = points.flatMap((point) => point.all)
  const middles = points.flatMap(({ median_s }) => median_s ?? [])
  const enough = isEnough(all.length)
  const low = quantile(all, 0.25)
  const high = quantile(all, 0.75)
  return {
    id,
    n: all.length,
    median_s: enough ? median(all) : undefined,
    quartiles_s: enough && low !== undefined && high !== undefined ? [low, high] : undefined,
    points: points.map(({ from, n, median_s }) => ({ from, n, median_s })),
    run: runChart(enough ? middles : []),
    limits: enough && middles.length >= RUNS_FROM_n ? xmrChart(middles, 0) : undefined,
  }
}
