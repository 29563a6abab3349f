import { createPortal } from 'react-dom'
import { filledDraft } from '../../app/order/filledDraft.ts'
import type { Series, SeriesSitting } from '../../core/record/seriesRecord.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { RequestHold } from '../plan/RequestHold.tsx'
import { RequestRows, type RequestRow } from '../plan/RequestRows.tsx'
import { RequestWho } from '../plan/RequestWho.tsx'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import '../plan/request.css'

/** The order of a series on paper, as it stands now: what was drawn, what is due, and whether the rest waits. */
export function SeriesRequest({ series }: { readonly series: Series }) {
  const { paper } = useApp((s) => s.settings)
  const { texts, fill } = useTexts()
  const { testName } = useServices()
  const { request, app, labels, series: t } = texts
  const { opened, sittings, holds, wentOn } = series
  const at = (at_ms: number): string => timeOfDay({ at_ms, offset_min: series.offset_min })
  const stands = ({ state, drawn_ms, due_ms, whyLeftOut }: SeriesSitting): string => {
    if (state === 'leftOut') return fill(t.leftOut, { why: whyLeftOut ?? '' })
    if (drawn_ms !== undefined) return fill(t.drawn, { at: at(drawn_ms) })
    const due = due_ms === undefined ? '' : `${fill(t.dueAt, { at: at(due_ms) })}; `
    return `${due}${request.collectedAt} ______________`
  }
  return createPortal(
    <article className={`requestForm seriesRequest ${paper}`} aria-label={request.title}>
      <h2>{request.title}</h2>
      {opened.invented && <p className="requestInvented">{app.invented}</p>}
      <p>{opened.site}</p>
      <RequestHold approvals={opened.approvals ?? []} holds={holds} wentOn={wentOn} />
      <RequestWho draft={filledDraft(opened, opened.invented)} />
      <h3>{t.title}</h3>
      <RequestRows
        rows={sittings.map((sitting): RequestRow => {
          const { point, number, of, tests } = sitting.part
          return [
            fill(labels.point, { point, number, of }),
            `${tests.map(testName).join(', ')}; ${stands(sitting)}`,
          ]
        })}
      />
    </article>,
    document.body,
  )
}
