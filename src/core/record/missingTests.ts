import type { DrawFacts } from './drawFacts.ts'
import { labeledTubes } from './labeledTubes.ts'

/** Why a test that was ordered has no blood: the gravest thing that the record holds, a code of the note's words. */
export const MISSING_WHY = [
  'consentRefused',
  'consentWithdrawn',
  'identityMismatch',
  'stopped',
  'noFurtherPuncture',
  'noTube',
  'open',
  'notRecorded',
] as const
export type MissingWhy = (typeof MISSING_WHY)[number]

export interface MissingTest {
  readonly test: string
  readonly why: MissingWhy
  /** The reason in the words of whoever closed the draw, if they gave one. */
  readonly reason?: string
}

/** Tests of the order that no tube for the laboratory holds, each with why. Of a draw that goes on they are open. */
export function missingTests(facts: DrawFacts): readonly MissingTest[] {
  const served = new Set(labeledTubes(facts).flatMap(({ tube }) => tube.tests))
  const noTube = new Set(facts.plan.uncovered.map(({ test }) => test))
  const reason = facts.closed?.reason
  return facts.opened.order.tests
    .filter((test) => !served.has(test))
    .map((test) => ({
      test,
      why: noTube.has(test) ? ('noTube' as const) : whyOf(facts),
      ...(reason === undefined ? {} : { reason }),
    }))
}

function whyOf(facts: DrawFacts): MissingWhy {
  const raised = (kind: string): boolean => facts.exceptions.some((fact) => fact.kind === kind)
  if (facts.consent?.given === false) return 'consentRefused'
  if (raised('consentWithdrawn')) return 'consentWithdrawn'
  if (raised('identityMismatch')) return 'identityMismatch'
  if (facts.closed?.outcome === 'stopped' || facts.decisions.some((d) => d.decision === 'stop')) {
    return 'stopped'
  }
  if (facts.noFurtherPuncture) return 'noFurtherPuncture'
  return facts.closed ? 'notRecorded' : 'open'
}
