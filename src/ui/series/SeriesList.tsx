import { useId, type ReactNode } from 'react'
import { needsNow } from '../../core/record/seriesNow.ts'
import { isToDraw, type Series } from '../../core/record/seriesRecord.ts'
import { useApp } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { OneSeries } from './OneSeries.tsx'
import './series.css'

interface SeriesListProps {
  /** Names are shown. */
  readonly named: boolean
  readonly onPrint: (id: string) => void
}

/** Orders of patients that are drawn several times and with which something is to be done now. */
export function DueSeries(props: SeriesListProps) {
  const { now } = useSeries()
  const { series: t } = useTexts().texts
  if (now.length === 0) return null
  return (
    <Group title={t.title} about={t.about} series={now} {...props}>
      <ClockSet />
    </Group>
  )
}

/** Those that have time, what is due first above; practice apart. */
export function LaterSeries(props: SeriesListProps) {
  const { now, later, rehearsed } = useSeries()
  const { series: t } = useTexts().texts
  return (
    <>
      {later.length > 0 && (
        <Group
          title={now.length > 0 ? t.laterTitle : t.title}
          about={t.about}
          series={later}
          {...props}
        >
          {now.length === 0 && <ClockSet />}
        </Group>
      )}
      {rehearsed.length > 0 && (
        <Group title={t.practiceTitle} about={t.practiceAbout} series={rehearsed} {...props} />
      )}
    </>
  )
}

/** The open series by where they stand. */
export function useSeries() {
  const series = useApp((s) => s.series)
  const now_ms = useApp((s) => s.seriesNow_ms)
  const ofPatients = series.filter(({ opened }) => !opened.invented)
  return {
    now: ofPatients.filter((each) => needsNow(each, now_ms)),
    later: ofPatients.filter((each) => !needsNow(each, now_ms)),
    rehearsed: series.filter(({ opened }) => opened.invented),
  }
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

interface GroupProps extends SeriesListProps {
  readonly title: string
  readonly about: string
  readonly series: readonly Series[]
  readonly children?: ReactNode
}

function Group({ title, about, series, named, onPrint, children }: GroupProps) {
  const id = useId()
  return (
    <section className="seriesList" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p>{about}</p>
      {children}
      <ul className="bare">
        {[...series]
          .sort((a, b) => nextDue_ms(a) - nextDue_ms(b))
          .map((each) => (
            <OneSeries key={each.id} series={each} named={named} onPrint={() => onPrint(each.id)} />
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
