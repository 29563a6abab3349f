import { isTime } from '../../core/record/seriesNow.ts'
import { isToDraw, type Series, type SeriesSitting } from '../../core/record/seriesRecord.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface SittingRowProps {
  readonly series: Series
  readonly sitting: SeriesSitting
  /** Whose it is, as far as names are shown. */
  readonly name: string
}

/** One sitting: when it is due in large figures, and the way into its draw. */
export function SittingRow({ series, sitting, name: patient }: SittingRowProps) {
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { series: t } = texts
  const { part, state, key } = sitting
  const { point, number, of, name } = part
  const startable = isToDraw(state) && series.holds.length === 0
  const now_ms = useApp((s) => s.seriesNow_ms)
  return (
    <li className={`sitting ${state}`}>
      <span className="sittingWhat">
        <strong>{point}</strong>
        <span className="soft">{fill(t.numbered, { name, number, of })}</span>
        {startable && part.apart && <span>{t.apart[part.apart]}</span>}
      </span>
      <SittingTime series={series} sitting={sitting} />
      {startable && (
        <button
          type="button"
          className={isTime(sitting, now_ms) ? 'button go' : 'button'}
          aria-label={fill(t.startOf, { point, patient })}
          onClick={() => void actions.openSitting(series.id, key)}
        >
          {fill(t.start, { point })}
        </button>
      )}
    </li>
  )
}

/** `due 10:32, in 12 min`, or how the sitting stands. */
function SittingTime({ series, sitting }: Pick<SittingRowProps, 'series' | 'sitting'>) {
  const now_ms = useApp((s) => s.seriesNow_ms)
  const { texts, fill } = useTexts()
  const { site } = useServices()
  const { series: t } = texts
  const { state, due_ms, part, drawn_ms, whyLeftOut } = sitting
  const clock = (at_ms: number): string => timeOfDay({ at_ms, offset_min: series.offset_min })
  if (state === 'done') {
    return <span className="soft">{fill(t.drawn, { at: drawn_ms ? clock(drawn_ms) : '' })}</span>
  }
  if (state === 'leftOut') {
    return <span className="soft">{fill(t.leftOut, { why: whyLeftOut ?? '' })}</span>
  }
  const waits = isToDraw(state) && series.holds.length > 0 ? `${t.waits} ` : ''
  const failed = state === 'failed' ? `${t.failed} ${waits}` : waits
  if (state === 'open' && due_ms === undefined) return <span>{t.open}</span>
  if (due_ms === undefined) {
    const counted =
      part.from === undefined
        ? t.noDue
        : fill(t.waitsFor, { moment: site.texts.note.words.moment[part.from] })
    return <span>{`${failed}${counted}`}</span>
  }
  const dose =
    part.from === 'nextDose'
      ? series.moments.findLast(({ moment }) => moment === 'nextDose')
      : undefined
  const minutes = Math.floor(Math.abs(due_ms - now_ms) / 60_000)
  const late_ms = now_ms - due_ms
  const passed = late_ms > (part.tolerance_min ?? Infinity) * 60_000
  const tone = late_ms < 0 ? 'ahead' : passed ? 'late' : 'now'
  const text = late_ms < 0 ? t.dueIn : minutes === 0 ? t.dueNow : t.dueAgo
  return (
    <span className={`due figures ${tone}`} role="timer" aria-live="off">
      {failed}
      {state === 'open' && `${t.open} `}
      <strong>{fill(t.dueAt, { at: clock(due_ms) })}</strong>{' '}
      {dose && `${fill(t.beforeDoseAt, { at: clock(dose.at_ms) })}, `}
      {fill(text, { n: late_ms < 0 ? Math.ceil(-late_ms / 60_000) : minutes })}
    </span>
  )
}
