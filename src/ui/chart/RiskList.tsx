import type { SpecimenRisk } from '../../core/record/risk.ts'

interface RiskListProps {
  readonly risks: readonly SpecimenRisk[]
  readonly tubeName: (tubeId: string) => string
}

const BACKING = {
  read: '',
  secondHand: ' (read second-hand)',
  fromMemory: ' (from memory, not confirmed)',
  commonPractice: '',
  site: '',
} as const

/** What may have changed a specimen, with reason and source. For information; no specimen is held back by it. */
export function RiskList({ risks, tubeName }: RiskListProps) {
  return (
    <section className="risks" aria-labelledby="risks-title">
      <h2 id="risks-title">For the laboratory to know</h2>
      {risks.length === 0 ? (
        <p>Nothing in this record speaks against the specimens.</p>
      ) : (
        <ul>
          {risks.map((risk, index) => (
            <li key={index} className="risk">
              <h3>
                {risk.title}
                {risk.tubeIds.length > 0 ? `: ${risk.tubeIds.map(tubeName).join(', ')}` : ''}
              </h3>
              <p>
                {risk.found} {risk.why}
              </p>
              <p className="riskSource">
                Source: {risk.source}
                {BACKING[risk.backing]}
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
