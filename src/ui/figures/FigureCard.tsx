import { useId } from 'react'
import { ENOUGH_n } from '../../core/figures/enough.ts'
import { ChartPicture, type Chart } from './ChartPicture.tsx'
import { FigureTable } from './FigureTable.tsx'
import { useFigureTexts } from './useFigureTexts.ts'

interface FigureCardProps {
  readonly title: string
  readonly about: string
  /** The figure as one sentence. */
  readonly said: string
  /** What its course says. */
  readonly signals: readonly string[]
  readonly isFew: boolean
  readonly chart: Chart
  readonly columns: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** One figure: its sentence, its picture, and the table of every point. */
export function FigureCard(props: FigureCardProps) {
  const { title, about, said, signals, isFew, chart, columns, rows } = props
  const { texts, fill } = useFigureTexts()
  const id = useId()
  return (
    <section className="figureCard" aria-labelledby={id}>
      <div className="figureWords">
        <h2 id={id}>{title}</h2>
        <p className="soft">{about}</p>
        <p className="figures">{said}</p>
        {isFew && <p className="soft small">{fill(texts.tooFewSource, { least: ENOUGH_n })}</p>}
        <ul className="bare figures">
          {signals.map((signal, i) => (
            <li key={i}>{signal}</li>
          ))}
        </ul>
      </div>
      {rows.length > 0 && (
        <>
          {!isFew && <ChartPicture chart={chart} about={fill(texts.picture, { title, said })} />}
          <FigureTable name={fill(texts.table.name, { title })} columns={columns} rows={rows} />
        </>
      )}
    </section>
  )
}
