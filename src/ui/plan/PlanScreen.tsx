import type { Plan, PlanNotice } from '../../core/plan/plan.ts'
import { draftMoments } from '../../app/order/draftMoments.ts'
import { mayOpen, stopsForGood } from '../../core/plan/decisions.ts'
import { fixedZone } from '../../core/time/zone.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { screenLanguage } from '../../app/site/screenLanguage.ts'
import { whoDraws } from '../../app/site/whoDraws.ts'
import { AskWhoDraws } from '../whoDraws/AskWhoDraws.tsx'
import { Decisions } from './Decisions.tsx'
import { LaterSittings } from './LaterSittings.tsx'
import { Notices } from './Notices.tsx'
import { RequestForm } from './RequestForm.tsx'
import { RackPicture } from './RackPicture.tsx'
import { SittingWhen } from './SittingWhen.tsx'
import { SittingHead } from './SittingHead.tsx'
import { BandForecast, BloodTotal } from './Totals.tsx'
import { SharedTubes } from './SharedTubes.tsx'
import { TubeRow } from './TubeRow.tsx'
import { PatientLanguage } from '../patient/PatientLanguage.tsx'
import './plan.css'

/** What will be drawn, in order and why, before anything is begun. */
export function PlanScreen() {
  const plan = useApp((s) => s.plan)
  const sittings = useApp((s) => s.sittings)
  const approvals = useApp((s) => s.approvals)
  const actions = useActions()
  const { page, now_ms } = useServices()
  const settings = useApp((s) => s.settings)
  const invented = useApp((s) => s.draft.invented)
  const { texts, fill } = useTexts()
  const { plan: t } = texts
  const name = useApp((s) => s.draft.fullName)
  const fromVein = useApp((s) => s.draft.collecting === 'venous')
  const back = { to: 'order', onBack: () => void actions.go({ name: 'order' }) } as const
  if (!plan) {
    return (
      <Frame title={t.none} back={back}>
        <p className="lead">{t.noneAbout}</p>
      </Frame>
    )
  }
  // What stands in the way of any of the draws is told before the first.
  const together = joined([plan, ...sittings.slice(1).map((sitting) => sitting.plan)])
  const wrong = stopsForGood(together)
  const stopped = wrong.length > 0 || plan.tubes.length === 0
  const [first, ...later] = sittings
  const said = invented || whoDraws(settings, now_ms()) === 'said'
  const ready =
    mayOpen(plan, approvals) && later.every((sitting) => mayOpen(sitting.plan, approvals))
  return (
    <Frame title={stopped ? t.stopped : fill(t.title, { n: plan.tubes.length })} back={back}>
      <div className="noPrint">
        <p className="lead">
          {name !== '' && <strong>{fill(t.ofPatient, { name })}</strong>}{' '}
          {stopped ? t.stoppedAbout : t.about}{' '}
          {!stopped && together.warnings.length > 0 && (
            <a href="#plan-warnings">{fill(t.warningsBelow, { n: together.warnings.length })}</a>
          )}
        </p>
        <Notices title={t.problems} tone="stopBox" notices={wrong} />
        <Decisions plan={together} />
        <Uncovered plan={together} />
        {stopped && <Cautions plan={together} />}
        {/* Also where a vein gives nothing at all: a newborn card is planned from the heel alone. */}
        {plan.tubes.length === 0 && <Advice plan={plan} />}
        {stopped && (
          <button type="button" className="button go" onClick={back.onBack}>
            {texts.app.backTo.order}
          </button>
        )}
        {plan.tubes.length > 0 && (
          <>
            {first && later.length > 0 && (
              <SittingHead parts={first.parts} number={1} of={sittings.length} level={2} />
            )}
            <FirstWhen />
            <RackPicture tubes={plan.tubes} />
            <div className="totals">
              <BloodTotal blood={plan.blood} />
              {fromVein && <BandForecast plan={plan} />}
            </div>
            <Advice plan={plan} />
            {!stopped && <Cautions plan={together} />}
            <ol className="bare tubeRows" aria-label={t.tubes}>
              {plan.tubes.map((tube, i) => (
                <TubeRow key={tube.id} tube={tube} number={i + 1} />
              ))}
            </ol>
            <SharedTubes tubes={plan.tubes} />
            <LaterSittings sittings={sittings} />
            <button type="button" className="button" onClick={() => page.print()}>
              {texts.request.print}
            </button>
          </>
        )}
        <Details notices={plan.details ?? []} />
        {ready && !said && <AskWhoDraws />}
        {ready && said && <ForPatient />}
        {ready && said && (
          <div className="startBar">
            <button type="button" className="button go" onClick={() => void actions.openDraw()}>
              {t.start}
            </button>
            <p className="soft">{t.startAbout}</p>
          </div>
        )}
      </div>
      {plan.tubes.length > 0 && <RequestForm plan={plan} />}
    </Frame>
  )
}

/** The patient may be spoken to in another language than the screens have. */
function ForPatient() {
  const chosen = useApp((s) => s.draft.patientLanguage)
  const { site } = useServices()
  const actions = useActions()
  return (
    <PatientLanguage
      value={chosen || screenLanguage(site)}
      onChange={(language) => actions.editDraft({ patientLanguage: language })}
    />
  )
}

/** When the first draw is due, where it is counted from anything. */
function FirstWhen() {
  const [first] = useApp((s) => s.sittings)
  const draft = useApp((s) => s.draft)
  const resumed = useApp((s) => s.resumed)
  const { site } = useServices()
  if (!first || resumed) return null
  // The form has local times: they are shown as they were typed.
  const moments = draftMoments(draft, site.catalogue, fixedZone(0))
  return first.parts
    .filter(({ from }) => from !== undefined)
    .map((part) => <SittingWhen key={part.code} part={part} moments={moments} />)
}

/** What to keep in mind, below the rack: the first look is for what to lay out. */
function Cautions({ plan: { warnings } }: { readonly plan: Plan }) {
  const { plan } = useTexts().texts
  return (
    <div id="plan-warnings">
      <Notices title={plan.warnings} tone="warnBox" notices={warnings} />
    </div>
  )
}

/** What is told of several plans, each sentence once. */
function joined(plans: readonly Plan[]): Plan {
  const [first] = plans as readonly [Plan, ...Plan[]]
  const once = (notices: readonly PlanNotice[]): readonly PlanNotice[] =>
    notices.filter(
      ({ code, text }, index) =>
        notices.findIndex((other) => other.code === code && other.text === text) === index,
    )
  return {
    ...first,
    problems: once(plans.flatMap(({ problems }) => problems)),
    warnings: once(plans.flatMap(({ warnings }) => warnings)),
    uncovered: plans.flatMap(({ uncovered }) => uncovered),
  }
}

/** Drops would do as well: said, and taken only by an act. */
function Advice({ plan: { advises } }: { readonly plan: Plan }) {
  const actions = useActions()
  const { plan } = useTexts().texts
  if (!advises) return null
  const take = (): void => {
    actions.editDraft({ collecting: advises })
    actions.makePlan()
  }
  return (
    <section className="total" aria-label={plan.advice.title}>
      <p>{plan.advice[advises]}</p>
      <button type="button" className="button" onClick={take}>
        {plan.advice.take}
      </button>
    </section>
  )
}

/** What was assumed, folded: nobody has to act on it. */
function Details({ notices }: { readonly notices: readonly PlanNotice[] }) {
  const { texts, fill } = useTexts()
  if (notices.length === 0) return null
  return (
    <details className="planDetails">
      <summary>{texts.plan.details}</summary>
      <ul>
        {notices.map(({ text, source }, i) => (
          <li key={i}>
            {text}{' '}
            {source !== undefined && (
              <span className="small soft">{fill(texts.plan.source, { source })}</span>
            )}
          </li>
        ))}
      </ul>
    </details>
  )
}

function Uncovered({ plan }: { readonly plan: Plan }) {
  const services = useServices()
  const { texts, fill } = useTexts()
  return (
    <Notices
      title={texts.plan.uncovered}
      tone="warnBox"
      notices={plan.uncovered.map(({ test, reason }) => ({
        code: test,
        text: fill(texts.plan.uncoveredTest, { test: services.testName(test), reason }),
      }))}
    />
  )
}
