import { fillText } from '../../core/basics/fillText.ts'
import { coverageAfter } from '../../core/plan/coverageAfter.ts'
import { drawnTubes } from '../../core/protocol/drawnTubes.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { ViewTexts } from './viewTexts.ts'

/** For the step that asks whether to try again: what the rack already serves and what it does not, in words. */
export function coverageLines(
  s: DrawState,
  { testName, texts }: Pick<ViewTexts, 'testName' | 'texts'>,
): readonly string[] {
  const { coverage } = texts.draw
  const { covered, lost, tryNext } = coverageAfter(s.plan, drawnTubes(s), texts.plan)
  const next = tryNext && s.plan.tubes.find(({ id }) => id === tryNext.tubeId)
  const named = (text: string, codes: readonly string[]): readonly string[] =>
    codes.length === 0 ? [] : [fillText(text, { tests: codes.map(testName).join(', ') })]
  return [
    ...named(coverage.covered, covered),
    ...named(
      coverage.missing,
      lost.map(({ test }) => test),
    ),
    ...(next ? [fillText(coverage.tryFirst, { tube: next.name })] : []),
    ...(tryNext && tryNext.passesOver.length > 0 ? [tryNext.reason] : []),
  ]
}
