import { NOTED_MOMENTS } from '../../core/order/sitting.ts'
import { findTest } from '../../core/catalogue/catalogue.ts'
import { plannedFill_mL, type Plan } from '../../core/plan/plan.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { RequestHold } from './RequestHold.tsx'
import { RequestRows, type RequestRow } from './RequestRows.tsx'
import { RequestWho } from './RequestWho.tsx'
import './request.css'

/** The order on paper, to go with the tubes: only printed. What nobody said stays a line to write on. */
export function RequestForm({ plan }: { readonly plan: Plan }) {
  const draft = useApp((s) => s.draft)
  const { paper, siteName } = useApp((s) => s.settings)
  const { site } = useServices()
  const { request, app } = useTexts().texts
  return (
    <article className={`requestForm ${paper}`} aria-label={request.title}>
      <h2>{request.title}</h2>
      {draft.invented && <p className="requestInvented">{app.invented}</p>}
      <p>{draft.invented ? site.demo.siteName : siteName}</p>
      <Hold plan={plan} />
      <RequestWho draft={draft} />
      <What />
      <Tubes plan={plan} />
      <Later />
      <section className="requestSigns">
        {(['ordered', 'collected', 'received'] as const).map((id) => (
          <p key={id}>
            <span>{request.signs[id]}</span>
            <i />
            <span>{request.date}</span>
            <i />
          </p>
        ))}
      </section>
    </article>
  )
}

/** Of all draws of the order; a draw of a series that was gone on with says who let it. */
function Hold({ plan }: { readonly plan: Plan }) {
  const [, ...later] = useApp((s) => s.sittings)
  const approvals = useApp((s) => s.approvals)
  const resumed = useApp((s) => s.resumed)
  const series = useApp((s) => s.series).find(({ id }) => id === resumed?.series)
  return (
    <RequestHold
      plans={[plan, ...later.map((sitting) => sitting.plan)]}
      approvals={approvals}
      {...(series && { holds: series.holds, wentOn: series.wentOn })}
    />
  )
}

/** The draws after the first, with a line for the time of each. */
function Later() {
  const [, ...later] = useApp((s) => s.sittings)
  const { texts, fill } = useTexts()
  const { testName } = useServices()
  if (later.length === 0) return null
  return (
    <>
      <h3>{texts.series.laterDraws}</h3>
      <RequestRows
        rows={later.flatMap(({ parts, tests }): RequestRow[] => {
          const names = tests.map(testName).join(', ')
          return parts.map(({ point, number, of }) => [
            fill(texts.labels.point, { point, number, of }),
            `${names}; ${texts.request.collectedAt} ______________`,
          ])
        })}
      />
    </>
  )
}

function What() {
  const draft = useApp((s) => s.draft)
  const { site, testName } = useServices()
  const { texts, fill } = useTexts()
  const { order, request } = texts
  const lastDoses = Object.entries(draft.lastDoses)
    .filter(([, at]) => at !== '')
    .map(([code, at]) => `${testName(code)} ${at.replace('T', ' ')}`)
  return (
    <>
      <h3>{request.tests}</h3>
      <ul className="requestTests">
        {draft.tests.map((code) => {
          const { timing, fasting } = findTest(site.catalogue, code) ?? {}
          const asks = [...(fasting ? [request.fasting] : []), ...(timing ? [timing] : [])]
          return <li key={code}>{[testName(code), ...asks].join('; ')}</li>
        })}
      </ul>
      <RequestRows
        rows={[
          [
            order.fasted,
            draft.fasted_h === '' ? '' : fill(texts.units.hours, { n: draft.fasted_h }),
          ],
          [order.anticoagulant, order.anticoagulants[draft.anticoagulant]],
          [request.lastDose, lastDoses.join('; ')],
          ...NOTED_MOMENTS.flatMap((moment): RequestRow[] => {
            const at = draft.moments[moment]
            const label = fill(order.momentOf, { moment: site.texts.note.words.moment[moment] })
            return at ? [[label, at.replace('T', ' ')]] : []
          }),
          [request.collectedAt, ''],
        ]}
      />
    </>
  )
}

function Tubes({ plan }: { readonly plan: Plan }) {
  const { testName, site } = useServices()
  const { texts, fill } = useTexts()
  const { mL, minutes } = useUnits()
  const { request, plan: words } = texts
  return (
    <>
      <h3>{words.tubes}</h3>
      <ol className="requestTubes">
        {plan.tubes.map((tube) => (
          <li key={tube.id}>
            {[
              `${tube.name}, ${mL(plannedFill_mL(tube))}`,
              tube.role === 'specimen' ? '' : words[tube.role],
              tube.tests.map(testName).join(', '),
              ...tube.handling.map((mark) => site.words.handling[mark] ?? mark),
              tube.timeLimit_min === undefined
                ? ''
                : fill(words.within, { length: minutes(tube.timeLimit_min) }),
            ]
              .filter(Boolean)
              .join('; ')}
          </li>
        ))}
      </ol>
      {plan.uncovered.length > 0 && (
        <p>
          {fill(request.uncovered, {
            tests: plan.uncovered.map(({ test }) => testName(test)).join(', '),
          })}
        </p>
      )}
    </>
  )
}
