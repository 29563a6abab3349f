import { ENOUGH_n } from '../../core/figures/enough.ts'
import type { TimeFigure } from '../../core/figures/timeFigure.ts'
import { FigureCard } from './FigureCard.tsx'
import { useFigureTexts } from './useFigureTexts.ts'
import { useSignals } from './useSignals.ts'

/** A length of time: the middle of each stretch, in words, picture and table. */
export function TimeCard({ figure }: { readonly figure: TimeFigure }) {
  const { texts, fill, seconds, day } = useFigureTexts()
  const signalsOf = useSignals()
  const { n, median_s, quartiles_s, limits, run } = figure
  const points = figure.points.flatMap(({ from, n: of, median_s: value }) =>
    value === undefined ? [] : [{ from, of, value, isOut: isBeyond(value, limits) }],
  )
  const { title, about } = texts.times[figure.id]
  const said =
    median_s === undefined || !quartiles_s
      ? fill(texts.tooFewTimes, { n, least: ENOUGH_n })
      : fill(texts.median, {
          n,
          median: seconds(median_s),
          low: seconds(quartiles_s[0]),
          high: seconds(quartiles_s[1]),
        })
  const signals = signalsOf(run, points, median_s === undefined)
  return (
    <FigureCard
      title={title}
      about={about}
      said={said}
      signals={signals}
      isFew={median_s === undefined}
      chart={{
        points: points.map((point) => ({
          ...point,
          lower: limits?.lower,
          upper: limits?.upper,
        })),
        center: limits?.center ?? median_s,
        format: seconds,
        least_top: 10,
      }}
      columns={[texts.table.from, texts.table.of, texts.table.median, texts.table.limits]}
      rows={points.map(({ from, of, value, isOut }) => [
        day(from),
        String(of),
        seconds(value),
        [
          limits
            ? fill(texts.table.to, { low: seconds(limits.lower), high: seconds(limits.upper) })
            : texts.table.none,
          ...(isOut ? [texts.table.beyond] : []),
        ].join(', '),
      ])}
    />
  )
}

const isBeyond = (value: number, limits: TimeFigure['limits']): boolean =>
  limits !== undefined && (value < limits.lower || value > limits.upper)
