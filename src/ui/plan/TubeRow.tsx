import type { Plan } from '../../core/plan/plan.ts'
import { useServices } from '../shared/appContext.tsx'
import { closureColor } from '../shared/closureColor.ts'
import {
  ADDITIVE_WORDS,
  fillWords,
  HANDLING_WORDS,
  inversionWords,
  minutes,
  mL,
} from '../shared/words.ts'

const ROLE_WORDS = { specimen: '', discard: 'Discard tube', culture: 'Culture bottle' } as const

interface TubeRowProps {
  readonly tube: Plan['tubes'][number]
  readonly number: number
  readonly bandOffHere: boolean
}

/** One tube in words. */
export function TubeRow({ tube, number, bandOffHere }: TubeRowProps) {
  const services = useServices()
  const color = closureColor(tube.closure)
  const handling = [
    ...tube.handling.map((kind) => HANDLING_WORDS[kind]),
    ...(tube.clot_min ? [`Stand ${tube.clot_min} min to clot`] : []),
    ...(tube.timeLimit_min ? [`Within ${minutes(tube.timeLimit_min)} of collection`] : []),
  ]
  return (
    <li className="tubeRow">
      <p className="number figures" aria-hidden="true">
        {number}
      </p>
      <div className="what">
        <h3>
          <span className="visuallyHidden">Tube {number}: </span>
          {tube.name}
        </h3>
        <p className="soft">
          {ROLE_WORDS[tube.role] && `${ROLE_WORDS[tube.role]} · `}
          {ADDITIVE_WORDS[tube.additive]}
          {tube.closure !== '' && (
            <>
              {' · '}
              {color && (
                <svg className="swatch" viewBox="0 0 14 14" aria-hidden="true">
                  <rect
                    x="1"
                    y="1"
                    width="12"
                    height="12"
                    rx="3"
                    fill={color}
                    stroke="currentColor"
                  />
                </svg>
              )}
              {tube.closure} closure
            </>
          )}
        </p>
        {tube.tests.length > 0 && (
          <p className="tests">{tube.tests.map(services.testName).join(', ')}</p>
        )}
        {handling.length > 0 && (
          <ul className="bare handling">
            {handling.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        )}
        <details>
          <summary>Why this tube, and why here</summary>
          <p>{tube.reason}</p>
          {(tube.lot ?? tube.expires) !== undefined && (
            <p className="soft small">
              {tube.lot !== undefined && `Lot ${tube.lot}. `}
              {tube.expires !== undefined && `Expires ${tube.expires}.`}
            </p>
          )}
        </details>
        {bandOffHere && <p className="bandOff">Band (tourniquet) off while this tube fills</p>}
      </div>
      <dl className="figures">
        <div>
          <dt>Draw</dt>
          <dd>{mL(tube.nominal_mL)}</dd>
        </div>
        <div>
          <dt>Invert</dt>
          <dd>{inversionWords(tube.inversions)}</dd>
        </div>
        <div>
          <dt>Expect full in</dt>
          <dd>{fillWords(tube.fill)}</dd>
        </div>
      </dl>
    </li>
  )
}
