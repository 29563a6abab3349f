import type { Plan } from '../../core/plan/plan.ts'
import { mL } from '../shared/words.ts'

/** Total blood against the limit, in words with a ruler beside them. */
export function BloodTotal({ blood }: { readonly blood: Plan['blood'] }) {
  const { draw_mL, earlier_mL, limit_mL, period_mL, percentOfBody } = blood
  const all_mL = draw_mL + earlier_mL
  return (
    <section className="total" aria-labelledby="blood-total">
      <h2 id="blood-total">Blood</h2>
      <p className="amount figures">{mL(draw_mL)}</p>
      <p>
        {limit_mL === undefined
          ? 'No limit could be worked out'
          : `of ${mL(limit_mL)} allowed in one draw`}
        {percentOfBody !== undefined &&
          `; ${Number(percentOfBody.toFixed(2))} % of estimated blood volume`}
        .
      </p>
      {limit_mL !== undefined && <Ruler value={draw_mL} limit={limit_mL} />}
      {period_mL !== undefined && (
        <p>
          With {mL(earlier_mL)} earlier: {mL(all_mL)} of {mL(period_mL)} in the period.
        </p>
      )}
      <p className="small soft">{blood.source}</p>
    </section>
  )
}

/** How long the band will be on, before the needle is in. */
export function BandForecast({ plan }: { readonly plan: Plan }) {
  const { predicted_s, offDuring } = plan.band
  const tube = plan.tubes.findIndex((t) => t.id === offDuring)
  const name = plan.tubes[tube]?.name
  return (
    <section className="total" aria-labelledby="band-total">
      <h2 id="band-total">Band (tourniquet)</h2>
      <p className="amount figures">about {Math.round(predicted_s)} s</p>
      <p>from band on to the last tube full, if it stayed on. The limit is in your policy.</p>
      <p className="when">
        {name === undefined
          ? 'Take the band off as soon as blood flows into the first tube.'
          : `Take it off while tube ${tube + 1} (${name}) fills.`}
      </p>
      <p className="small soft">An estimate from needle, tubing and vacuum. Not a promise.</p>
    </section>
  )
}

function Ruler({ value, limit }: { readonly value: number; readonly limit: number }) {
  const width = 320
  const x = Math.min(1, value / limit) * width
  return (
    <svg className="ruler" viewBox={`-4 0 ${width + 8} 26`} aria-hidden="true">
      <rect x="0" y="8" width={x} height="8" className="used" />
      <line x1="0" x2={width} y1="16" y2="16" />
      {Array.from({ length: 11 }, (_, i) => (
        <line
          key={i}
          x1={(i * width) / 10}
          x2={(i * width) / 10}
          y1="16"
          y2={i % 5 === 0 ? 25 : 21}
        />
      ))}
    </svg>
  )
}
