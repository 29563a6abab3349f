import { NOTED_MOMENTS } from '../../core/order/sitting.ts'
import { findTest } from '../../core/catalogue/catalogue.ts'
import { byLaboratory, type LaboratoryPart } from '../../core/catalogue/laboratories.ts'
import { plannedFill_mL, type Plan } from '../../core/plan/plan.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { RequestHold } from './RequestHold.tsx'
import { RequestRows, type RequestRow } from './RequestRows.tsx'
import { RequestSigns } from './RequestSigns.tsx'
import { RequestTo } from './RequestTo.tsx'
import { RequestWho } from './RequestWho.tsx'
import { SharedTubes } from './SharedTubes.tsx'
import './request.css'

/** The order on paper, a page for each laboratory, to go with the tubes: only printed. */
export function RequestForm({ plan }: { readonly plan: Plan }) {
  const draft = useApp((s) => s.draft)
  const { laboratories } = useServices().site
  // A tube of tests that nobody asked for by name stands on a page as well.
  const tests = [...draft.tests, ...plan.tubes.flatMap((tube) => tube.tests)]
  const pages = byLaboratory(laboratories, [...new Set(tests)])
  return pages.map((part, index) => (
    <Page
      key={part.laboratory?.id ?? ''}
      plan={plan}
      part={part}
      page={[index + 1, pages.length]}
    />
  ))
}

interface PageProps {
  readonly plan: Plan
  readonly part: LaboratoryPart
  readonly page: readonly [number: number, of: number]
}

/** What nobody said stays a line to write on. */
function Page({ plan, part, page }: PageProps) {
  const draft = useApp((s) => s.draft)
  const { paper, siteName } = useApp((s) => s.settings)
  const { site } = useServices()
  const { request, app } = useTexts().texts
  return (
    <article className={`requestForm ${paper}`} aria-label={request.title}>
      <h2>{request.title}</h2>
      {draft.invented && <p className="requestInvented">{app.invented}</p>}
      <p>{draft.invented ? site.demo.siteName : siteName}</p>
      <RequestTo part={part} page={page} />
      <Hold plan={plan} />
      <RequestWho draft={draft} />
      <What tests={part.tests} />
      <Tubes plan={plan} part={part} />
      <Later tests={part.tests} />
      <RequestSigns />
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
function Later({ tests: ours }: Pick<LaboratoryPart, 'tests'>) {
  const [, ...all] = useApp((s) => s.sittings)
  const later = all.filter(({ tests }) => tests.some((test) => ours.includes(test)))
  const { texts, fill } = useTexts()
  const { testName } = useServices()
  if (later.length === 0) return null
  return (
    <>
      <h3>{texts.series.laterDraws}</h3>
      <RequestRows
        rows={later.flatMap(({ parts, tests }): RequestRow[] => {
          const names = tests
            .filter((test) => ours.includes(test))
            .map(testName)
            .join(', ')
          return parts.map(({ point, number, of }) => [
            fill(texts.labels.point, { point, number, of }),
            `${names}; ${texts.request.collectedAt} ______________`,
          ])
        })}
      />
    </>
  )
}

function What({ tests }: Pick<LaboratoryPart, 'tests'>) {
  const draft = useApp((s) => s.draft)
  const { site, testName } = useServices()
  const { texts, fill } = useTexts()
  const { order, request } = texts
  const lastDoses = Object.entries(draft.lastDoses)
    .filter(([code, at]) => at !== '' && tests.includes(code))
    .map(([code, at]) => `${testName(code)} ${at.replace('T', ' ')}`)
  return (
    <>
      <h3>{request.tests}</h3>
      <ul className="requestTests">
        {tests
          .filter((code) => draft.tests.includes(code))
          .map((code) => {
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

function Tubes({ plan, part }: Pick<PageProps, 'plan' | 'part'>) {
  const { testName, site } = useServices()
  const { texts, fill } = useTexts()
  const { mL, minutes } = useUnits()
  const { request, plan: words } = texts
  const ours = (tests: readonly string[]): readonly string[] =>
    tests.filter((test) => part.tests.includes(test))
  // A tube without a test of any laboratory is drawn for the line.
  const tubes = plan.tubes.filter(({ tests }) => tests.length === 0 || ours(tests).length > 0)
  const uncovered = plan.uncovered.filter(({ test }) => part.tests.includes(test))
  return (
    <>
      <h3>{words.tubes}</h3>
      <ol className="requestTubes">
        {tubes.map((tube) => (
          <li key={tube.id}>
            {[
              `${tube.name}, ${mL(plannedFill_mL(tube))}`,
              tube.role === 'specimen' ? '' : words[tube.role],
              ours(tube.tests).map(testName).join(', '),
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
      <SharedTubes tubes={tubes} here={part.laboratory} />
      {uncovered.length > 0 && (
        <p>
          {fill(request.uncovered, {
            tests: uncovered.map(({ test }) => testName(test)).join(', '),
          })}
        </p>
      )}
    </>
  )
}
