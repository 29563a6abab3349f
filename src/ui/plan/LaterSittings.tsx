import type { PlannedSitting } from '../../core/plan/planSittings.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { SittingHead } from './SittingHead.tsx'
import { SittingWhen } from './SittingWhen.tsx'
import { TubeRow } from './TubeRow.tsx'

/** The draws after the first, each with its tubes, and the blood of all. */
export function LaterSittings({ sittings }: { readonly sittings: readonly PlannedSitting[] }) {
  const { texts, fill } = useTexts()
  const { mL } = useUnits()
  const [first, ...later] = sittings
  if (!first || later.length === 0) return null
  const { series: t } = texts
  const all_mL = sittings.reduce((sum, { plan }) => sum + plan.blood.draw_mL, 0)
  const begins = first.parts.map(({ point, name }) => fill(t.pointOf, { point, name })).join('; ')
  return (
    <section className="laterSittings" aria-labelledby="later-sittings">
      <h2 id="later-sittings">{fill(t.sittings, { n: sittings.length })}</h2>
      <p>{fill(t.sittingsAbout, { points: begins })}</p>
      <p className="amount figures">{fill(t.bloodOfAll, { amount: mL(all_mL) })}</p>
      {later.map(({ parts, plan }, index) => {
        const [part] = parts
        if (!part) return null
        const { point, name } = part
        return (
          <section key={`${part.code} ${part.number}`} aria-label={`${name}, ${point}`}>
            <SittingHead parts={parts} number={index + 2} of={sittings.length} level={3} />
            <SittingWhen part={part} moments={[]} />
            <ol className="bare tubeRows" aria-label={fill(t.tubesOf, { point })}>
              {plan.tubes.map((tube, i) => (
                <TubeRow key={tube.id} tube={tube} number={i + 1} />
              ))}
            </ol>
          </section>
        )
      })}
    </section>
  )
}
