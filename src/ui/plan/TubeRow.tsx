import { dayMonthYear } from '../../core/time/format.ts'
import { plannedFill_mL, type Plan } from '../../core/plan/plan.ts'
import { useServices } from '../shared/appContext.tsx'
import { closureColor } from '../shared/closureColor.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'

type Tube = Plan['tubes'][number]

interface TubeRowProps {
  readonly tube: Tube
  readonly number: number
}

/** One tube in words. */
export function TubeRow({ tube, number }: TubeRowProps) {
  const { testName } = useServices()
  const { texts, fill } = useTexts()
  const { plan } = texts
  return (
    <li className="tubeRow">
      <p className="number figures" aria-hidden="true">
        {number}
      </p>
      <div className="what">
        <h3>
          <span className="visuallyHidden">{fill(plan.tubeNumber, { number })} </span>
          {tube.name}
        </h3>
        <Kind tube={tube} />
        {tube.tests.length > 0 && <p className="tests">{tube.tests.map(testName).join(', ')}</p>}
        <Handling tube={tube} />
        <details>
          <summary>{plan.why}</summary>
          <p>{tube.reason}</p>
          <p className="soft small">
            {tube.lot === undefined ? plan.lotNotKnown : fill(plan.lot, { lot: tube.lot })}{' '}
            {tube.expires !== undefined && fill(plan.expires, { date: dayMonthYear(tube.expires) })}
          </p>
        </details>
      </div>
      <Figures tube={tube} />
    </li>
  )
}

function Kind({ tube }: { readonly tube: Tube }) {
  const { catalogue } = useServices().site.texts
  const { texts, fill } = useTexts()
  const { plan } = texts
  const color = closureColor(tube.closure)
  return (
    <p className="soft">
      {tube.role !== 'specimen' && <>{plan[tube.role]} · </>}
      {catalogue.additives[tube.additive]}
      {tube.closure !== '' && (
        <>
          {' · '}
          {color && (
            <svg className="swatch" viewBox="0 0 14 14" aria-hidden="true">
              <rect x="1" y="1" width="12" height="12" rx="3" fill={color} stroke="currentColor" />
            </svg>
          )}
          {fill(plan.closure, { closure: tube.closure })}
        </>
      )}
    </p>
  )
}

function Handling({ tube }: { readonly tube: Tube }) {
  const { words } = useServices().site
  const { texts, fill } = useTexts()
  const { minutes } = useUnits()
  const { plan } = texts
  const handling = [
    ...tube.handling.map((mark) => words.handling[mark] ?? mark),
    ...(tube.clot_min ? [fill(plan.clot, { length: minutes(tube.clot_min) })] : []),
    ...(tube.timeLimit_min ? [fill(plan.within, { length: minutes(tube.timeLimit_min) })] : []),
  ]
  if (handling.length === 0) return null
  return (
    <ul className="bare handling">
      {handling.map((text, i) => (
        <li key={i}>{text}</li>
      ))}
    </ul>
  )
}

function Figures({ tube }: { readonly tube: Tube }) {
  const { plan } = useTexts().texts
  const { mL, inversions, fillTime } = useUnits()
  return (
    <dl className="figures">
      <div>
        <dt>{plan.draw}</dt>
        <dd>{mL(plannedFill_mL(tube))}</dd>
      </div>
      <div>
        <dt>{plan.invert}</dt>
        <dd>{inversions(tube.inversions)}</dd>
      </div>
      {tube.fill.expected_s > 0 && (
        <div>
          <dt>{plan.fill}</dt>
          <dd>{fillTime(tube.fill)}</dd>
        </div>
      )}
    </dl>
  )
}
