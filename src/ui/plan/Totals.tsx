import type { Plan } from '../../core/plan/plan.ts'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'

/** Total blood against the limit, in words with a ruler beside them. */
export function BloodTotal({ blood }: { readonly blood: Plan['blood'] }) {
  const { texts, fill } = useTexts()
  const { mL } = useUnits()
  const { plan } = texts
  const { draw_mL, earlier_mL, limit_mL, period_mL, percentOfBody } = blood
  const against = (): string => {
    const limit = limit_mL === undefined ? '' : mL(limit_mL)
    if (percentOfBody === undefined) return limit ? fill(plan.limit, { limit }) : plan.noLimit
    const percent = Number(percentOfBody.toFixed(2))
    return limit
      ? fill(plan.limitOfBody, { limit, percent })
      : fill(plan.noLimitOfBody, { percent })
  }
  return (
    <section className="total" aria-labelledby="blood-total">
      <h2 id="blood-total">{plan.blood}</h2>
      <p className="amount figures">{mL(draw_mL)}</p>
      <p>{against()}</p>
      {limit_mL !== undefined && <Ruler value={draw_mL} limit={limit_mL} />}
      {period_mL !== undefined && (
        <p>
          {fill(plan.period, {
            earlier: mL(earlier_mL),
            all: mL(draw_mL + earlier_mL),
            period: mL(period_mL),
          })}
        </p>
      )}
      {limit_mL === undefined && period_mL === undefined ? null : (
        <details className="more">
          <summary>{plan.sources}</summary>
          <p className="small soft">{blood.source}</p>
        </details>
      )}
    </section>
  )
}

/** How long the band will be on, before the needle is in. */
export function BandForecast({ plan }: { readonly plan: Plan }) {
  const { texts, fill } = useTexts()
  const { predicted_s } = plan.band
  return (
    <section className="total" aria-labelledby="band-total">
      <h2 id="band-total">{texts.plan.band}</h2>
      <p className="amount figures">{fill(texts.plan.bandTime, { s: Math.round(predicted_s) })}</p>
      <p>{texts.plan.bandAbout}</p>
      <p className="when">{texts.plan.bandOffAtOnce}</p>
      <p className="small soft">{texts.plan.bandEstimate}</p>
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
