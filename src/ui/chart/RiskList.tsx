import type { SpecimenRisk } from '../../core/record/risk.ts'
import { useTexts } from '../shared/useTexts.ts'

/** Where what the note tells the laboratory comes from; what was found stands in the note alone. */
export function RiskList({ risks }: { readonly risks: readonly SpecimenRisk[] }) {
  const { texts, fill } = useTexts()
  const { chart } = texts
  const once = new Map(risks.map((risk) => [risk.code, risk]))
  return (
    <section className="risks" aria-labelledby="risks-title">
      <h2 id="risks-title">{risks.length === 0 ? chart.risks : chart.riskSources}</h2>
      {risks.length === 0 ? (
        <p>{chart.noRisks}</p>
      ) : (
        <ul>
          {[...once.values()].map(({ code, title, source, backing }) => (
            <li key={code} className="risk">
              <h3>{title}</h3>
              <p className="riskSource">
                {fill(chart.riskSource, { source })} {chart.backing[backing]}
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
