import type { DrawMeasures } from './drawMeasures.ts'
import { isEnough } from './enough.ts'
import { pChart, type PChartPoint, type Proportion } from './pChart.ts'
import { runChart, type RunChart } from './runChart.ts'

/** What is counted, each of what; less is better in all of them but where a site decides otherwise. */
export const PROPORTIONS = [
  'bandOver',
  'secondNeedle',
  'reaction',
  'flagged',
  'labelUnread',
  'pastLimit',
  'rejected',
  'fillOutside',
] as const
export type ProportionId = (typeof PROPORTIONS)[number]

const tries = ({ punctures }: DrawMeasures): number =>
  punctures.reduce((all, each) => all + each.tries, 0)

const ofDraw = (happened: boolean, counts: boolean): Proportion => ({
  count: counts && happened ? 1 : 0,
  of: counts ? 1 : 0,
})

const COUNTED: Readonly<Record<ProportionId, (draw: DrawMeasures) => Proportion>> = {
  bandOver: ({ bands }) => ({
    count: bands.filter(({ isOver }) => isOver).length,
    of: bands.length,
  }),
  secondNeedle: (draw) => ofDraw(tries(draw) > 1, tries(draw) > 0),
  reaction: (draw) => ofDraw(draw.reactions.length > 0, tries(draw) > 0),
  flagged: ({ flags }) => ofDraw(flags.length > 0, true),
  labelUnread: ({ specimens, labelsRight }) => ({ count: specimens - labelsRight, of: specimens }),
  pastLimit: ({ specimens, pastLimit }) => ({ count: pastLimit, of: specimens }),
  rejected: ({ specimens, rejected }) => ({ count: rejected, of: specimens }),
  fillOutside: ({ fills }) => ({
    count: fills.filter(({ where }) => where !== 'within').length,
    of: fills.length,
  }),
}

/** One figure over the stretches of a span. */
export interface ProportionFigure {
  readonly id: ProportionId
  readonly total: Proportion
  /** 0 to 1; `undefined` where there are too few cases to tell a share. */
  readonly center: number | undefined
  readonly points: readonly (PChartPoint & { readonly from: string })[]
  readonly run: RunChart
}

/**
 * How often something happened, stretch by stretch. Shares, limits and what the order of the points says are told
 * only where there are cases enough.
 * @param byStretch draws by the first day of their stretch, oldest first
 */
export function proportionFigure(
  id: ProportionId,
  byStretch: ReadonlyMap<string, readonly DrawMeasures[]>,
): ProportionFigure {
  const counted = [...byStretch.values()].map((draws) => added(draws.map(COUNTED[id])))
  const total = added(counted)
  const chart = pChart(counted)
  const enough = isEnough(total.of)
  const froms = [...byStretch.keys()]
  const points = chart.points.map((point, i) => ({
    ...point,
    ...(!enough && { share: undefined, lower: undefined, upper: undefined, isOut: false }),
    from: froms[i] ?? '',
  }))
  const shares = points.flatMap(({ share }) => share ?? [])
  return {
    id,
    total,
    center: enough ? chart.center : undefined,
    points,
    run: runChart(enough ? shares : []),
  }
}

const added = (parts: readonly Proportion[]): Proportion =>
  parts.reduce((all, { count, of }) => ({ count: all.count + count, of: all.of + of }), {
    count: 0,
    of: 0,
  })
