import type { Plan } from '../../core/plan/plan.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { count } from '../shared/words.ts'
import { Notices } from './Notices.tsx'
import { RackPicture } from './RackPicture.tsx'
import { BandForecast, BloodTotal } from './Totals.tsx'
import { TubeRow } from './TubeRow.tsx'
import './plan.css'

/** What will be drawn, in order and why, before anything is begun. */
export function PlanScreen() {
  const plan = useApp((s) => s.plan)
  const actions = useActions()
  const name = useApp((s) => s.draft.fullName)
  const back = { label: 'Back to the order', onBack: () => void actions.go({ name: 'order' }) }
  if (!plan) {
    return (
      <Frame title="No plan yet" back={back}>
        <p className="lead">Fill in the order first.</p>
      </Frame>
    )
  }
  const stopped = plan.problems.length > 0
  return (
    <Frame
      title={stopped ? 'This draw cannot start' : count(plan.tubes.length, 'tube')}
      back={back}
    >
      <p className="lead">
        {name !== '' && <strong>{name}. </strong>}
        {stopped ? 'Put right what stands below, then plan again.' : 'Lay them out in this order.'}
      </p>
      <div className="planNotices">
        <Notices title="Cannot start" tone="stopBox" notices={plan.problems} />
        <Uncovered plan={plan} />
        <Notices title="Keep in mind" tone="warnBox" notices={plan.warnings} />
      </div>
      {stopped && (
        <button type="button" className="button go" onClick={back.onBack}>
          Back to the order
        </button>
      )}
      {plan.tubes.length > 0 && (
        <>
          <RackPicture tubes={plan.tubes} />
          <div className="totals">
            <BloodTotal blood={plan.blood} />
            <BandForecast plan={plan} />
          </div>
          <ol className="bare tubeRows" aria-label="Tubes in order of draw">
            {plan.tubes.map((tube, i) => (
              <TubeRow
                key={tube.id}
                tube={tube}
                number={i + 1}
                bandOffHere={plan.band.offDuring === tube.id}
              />
            ))}
          </ol>
        </>
      )}
      {!stopped && plan.tubes.length > 0 && (
        <div className="startBar">
          <button type="button" className="button go" onClick={() => void actions.openDraw()}>
            Start the draw
          </button>
          <p className="soft">The record begins here. First step: check who the patient is.</p>
        </div>
      )}
    </Frame>
  )
}

function Uncovered({ plan }: { readonly plan: Plan }) {
  const services = useServices()
  return (
    <Notices
      title="No tube serves these tests"
      tone="warnBox"
      notices={plan.uncovered.map(({ test, reason }) => ({
        code: test,
        text: `${services.testName(test)}: ${reason}`,
      }))}
    />
  )
}
