import type { SpecimenRisk } from '../../core/record/risk.ts'
import { useTexts } from '../shared/useTexts.ts'

interface RiskListProps {
  readonly risks: readonly SpecimenRisk[]
  readonly tubeName: (tubeId: string) => string
}

/** What may have changed a specimen, with reason and source. For information; no specimen is held back by it. */
export function RiskList({ risks, tubeName }: RiskListProps) {
  const { texts, fill } = useTexts()
  const { chart } = texts
  const titleOf = ({ title, tubeIds }: SpecimenRisk): string =>
    tubeIds.length === 0
      ? title
      : fill(chart.riskTubes, { risk: title, tubes: tubeIds.map(tubeName).join(', ') })
  return (
    <section className="risks" aria-labelledby="risks-title">
      <h2 id="risks-title">{chart.risks}</h2>
      {risks.length === 0 ? (
        <p>{chart.noRisks}</p>
      ) : (
        <ul>
          {risks.map((risk, index) => (
            <li key={index} className="risk">
              <h3>{titleOf(risk)}</h3>
              <p>
                {risk.found} {risk.why}
              </p>
              <p className="riskSource">
                {fill(chart.riskSource, { source: risk.source })} {chart.backing[risk.backing]}
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
