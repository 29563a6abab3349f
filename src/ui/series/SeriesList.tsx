import { useEffect, useState, type ReactNode } from 'react'
import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { HoldBox } from './HoldBox.tsx'
import { LeaveOutForm } from './LeaveOutForm.tsx'
import { MomentForm } from './MomentForm.tsx'
import { SeriesRequest } from './SeriesRequest.tsx'
import { SittingRow } from './SittingRow.tsx'
import './series.css'

/** Orders that are drawn several times and have something left to do, what is due first above; practice apart. */
export function SeriesList() {
  const series = useApp((s) => s.series)
  // It stays on the paper: some browsers print only after the call.
  const [printed, setPrinted] = useState<{ readonly id: string }>()
  const { page } = useServices()
  const { series: t } = useTexts().texts
  useEffect(() => {
    if (printed) page.print()
  }, [printed, page])
  const onPaper = series.find(({ id }) => id === printed?.id)
  const print = (id: string): void => setPrinted({ id })
  const ofPatients = series.filter(({ opened }) => !opened.invented)
  const rehearsed = series.filter(({ opened }) => opened.invented)
  return (
    <>
      {ofPatients.length > 0 && (
        <Group id="series-list" title={t.title} about={t.about} series={ofPatients} onPrint={print}>
          <ClockSet />
        </Group>
      )}
      {rehearsed.length > 0 && (
        <Group
          id="practice-series"
          title={t.practiceTitle}
          about={t.practiceAbout}
          series={rehearsed}
          onPrint={print}
        />
      )}
      {onPaper && <SeriesRequest series={onPaper} />}
    </>
  )
}

function ClockSet() {
  const step_ms = useApp((s) => s.seriesClockStep_ms)
  const { texts, fill } = useTexts()
  if (step_ms === 0) return null
  return (
    <p className="warnBox" role="alert">
      {fill(texts.series.clockSet, { minutes: Math.round(step_ms / 60_000) })}
    </p>
  )
}

interface GroupProps {
  readonly id: string
  readonly title: string
  readonly about: string
  readonly series: readonly Series[]
  readonly onPrint: (id: string) => void
  readonly children?: ReactNode
}

function Group({ id, title, about, series, onPrint, children }: GroupProps) {
  return (
    <section className="seriesList" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p>{about}</p>
      {children}
      <ul className="bare">
        {[...series]
          .sort((a, b) => nextDue_ms(a) - nextDue_ms(b))
          .map((each) => (
            <OneSeries key={each.id} series={each} onPrint={() => onPrint(each.id)} />
          ))}
      </ul>
    </section>
  )
}

const nextDue_ms = ({ sittings }: Series): number =>
  Math.min(
    Infinity,
    ...sittings.filter(({ state }) => isToDraw(state)).map(({ due_ms }) => due_ms ?? Infinity),
  )

interface OneSeriesProps {
  readonly series: Series
  readonly onPrint: () => void
}

function OneSeries({ series, onPrint }: OneSeriesProps) {
  const { texts, fill } = useTexts()
  const { site } = useServices()
  const { patient, order, invented, sitting } = series.opened
  const minutes = sitting?.practice?.hour_min
  const now_ms = useApp((s) => s.seriesNow_ms)
  const days = Math.floor((now_ms - series.begun_ms) / 86_400_000)
  const left = series.sittings.filter(({ state }) => isToDraw(state))
  return (
    <li>
      <p className="seriesWho">
        <strong>{patient.fullName}</strong>
        {invented && <span className="tag">{texts.app.invented}</span>}
        <span className="soft figures">
          {fill(texts.series.order, { number: order.orderNumber, record: patient.recordNumber })}
        </span>
      </p>
      {minutes !== undefined && <p>{fill(texts.series.practiceHour, { minutes })}</p>}
      {days > 0 && <p>{fill(texts.series.begunDays, { n: days })}</p>}
      {series.holds.length > 0 && <HoldBox series={series} />}
      {series.wentOn.map(({ holds, by, why }) => {
        const whys = [...new Set(holds.map((hold) => site.texts.note.words.hold[hold.why]))]
        const text = fill(texts.series.wentOn, { whys: whys.join(', '), by, why })
        return <p key={text}>{text}</p>
      })}
      {series.asks.map((moment) => (
        <MomentForm key={moment} series={series} moment={moment} />
      ))}
      <ol className="bare">
        {series.sittings.map((sitting) => (
          <SittingRow key={sitting.key} series={series} sitting={sitting} />
        ))}
      </ol>
      <button type="button" className="button" onClick={onPrint}>
        {texts.request.print}
      </button>
      {left.length > 0 && <LeaveOutForm series={series} left={left} />}
    </li>
  )
}
