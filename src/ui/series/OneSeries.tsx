import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { HoldBox } from './HoldBox.tsx'
import { LeaveOutForm } from './LeaveOutForm.tsx'
import { MomentForm } from './MomentForm.tsx'
import { SittingRow } from './SittingRow.tsx'

interface OneSeriesProps {
  readonly series: Series
  readonly named: boolean
  readonly onPrint: () => void
}

/** One series: of whom, what holds it, what its samples are counted from, and its draws. */
export function OneSeries({ series, named, onPrint }: OneSeriesProps) {
  const { texts, fill } = useTexts()
  const { site } = useServices()
  const { patient, order, invented, sitting } = series.opened
  const minutes = sitting?.practice?.hour_min
  const now_ms = useApp((s) => s.seriesNow_ms)
  const days = Math.floor((now_ms - series.begun_ms) / 86_400_000)
  const left = series.sittings.filter(({ state }) => isToDraw(state))
  const name = named ? patient.fullName : site.texts.day.hidden
  return (
    <li>
      <p className="seriesWho">
        <strong>{name}</strong>
        {invented && <span className="tag">{texts.app.invented}</span>}
        {named && (
          <span className="soft figures">
            {fill(texts.series.order, { number: order.orderNumber, record: patient.recordNumber })}
          </span>
        )}
      </p>
      {minutes !== undefined && <p>{fill(texts.series.practiceHour, { minutes })}</p>}
      {days > 0 && <p>{fill(texts.series.begunDays, { n: days })}</p>}
      {series.holds.length > 0 && <HoldBox series={series} />}
      {series.wentOn.map(({ holds, by, why }, i) => {
        const whys = [...new Set(holds.map((hold) => site.texts.note.words.hold[hold.why]))]
        const text = fill(texts.series.wentOn, { whys: whys.join(', '), by, why })
        return <p key={i}>{text}</p>
      })}
      {series.asks.map((moment) => (
        <MomentForm key={moment} series={series} moment={moment} />
      ))}
      <ol className="bare">
        {series.sittings.map((each) => (
          <SittingRow key={each.key} series={series} sitting={each} name={name} />
        ))}
      </ol>
      <div className="seriesMore">
        <button type="button" className="button quiet" onClick={onPrint}>
          {texts.request.print}
        </button>
        {left.length > 0 && <LeaveOutForm series={series} left={left} />}
      </div>
    </li>
  )
}
