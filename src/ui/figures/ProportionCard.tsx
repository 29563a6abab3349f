import { ENOUGH_n } from '../../core/figures/enough.ts'
import type { ProportionFigure } from '../../core/figures/proportionFigure.ts'
import { FigureCard } from './FigureCard.tsx'
import { useFigureTexts } from './useFigureTexts.ts'
import { useSignals } from './useSignals.ts'

/** How often something happened: words, picture and table. */
export function ProportionCard({ figure }: { readonly figure: ProportionFigure }) {
  const { texts, fill, percent, day } = useFigureTexts()
  const signalsOf = useSignals()
  const { total, center, run } = figure
  const points = figure.points.filter(({ of }) => of > 0)
  const { title, about } = texts.proportions[figure.id]
  const counts = { count: total.count, of: total.of, least: ENOUGH_n }
  const said =
    center === undefined
      ? fill(texts.tooFew, counts)
      : fill(texts.share, { ...counts, share: percent(center) })
  const signals = signalsOf(run, points, center === undefined)
  const range = (low?: number, high?: number): string =>
    low === undefined || high === undefined
      ? texts.table.none
      : fill(texts.table.to, { low: percent(low), high: percent(high) })
  return (
    <FigureCard
      title={title}
      about={about}
      said={said}
      signals={signals}
      isFew={center === undefined}
      chart={{
        points: points.map(({ from, share, lower, upper, isOut }) => ({
          from,
          value: share,
          lower,
          upper,
          isOut,
        })),
        center,
        format: percent,
        least_top: 0.05,
      }}
      columns={[
        texts.table.from,
        texts.table.count,
        texts.table.of,
        texts.table.share,
        texts.table.limits,
      ]}
      rows={points.map(({ from, count, of, share, lower, upper, isOut }) => [
        day(from),
        String(count),
        String(of),
        share === undefined ? texts.table.none : percent(share),
        [range(lower, upper), ...(isOut ? [texts.table.beyond] : [])].join(', '),
      ])}
    />
  )
}
