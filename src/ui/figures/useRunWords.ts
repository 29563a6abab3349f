import type { RunChart } from '../../core/figures/runChart.ts'
import { RUNS_FROM_n } from '../../core/figures/runsLimits.ts'
import { useFigureTexts } from './useFigureTexts.ts'

/** What the order of the points says, in sentences; that it says nothing is a sentence too. */
export function useRunWords() {
  const { texts, fill, day } = useFigureTexts()
  /** @param froms first days of the points, in their order */
  return (run: RunChart, froms: readonly string[], isOut: boolean): readonly string[] => {
    if (froms.length < RUNS_FROM_n) return [fill(texts.runs.notAsked, { least: RUNS_FROM_n })]
    const { limits, runs, signals } = run
    const at = (place: number): string => day(froms[place] ?? '')
    const count = limits && { runs, least: limits.least, most: limits.most }
    const said = [
      ...signals.map(({ rule, from, to, length }) =>
        fill(texts.runs[rule], { from: at(from), to: at(to), length }),
      ),
      ...(run.tooFew && count ? [fill(texts.runs.tooFew, count)] : []),
      ...(run.tooMany && count ? [fill(texts.runs.tooMany, count)] : []),
    ]
    return said.length > 0 || isOut ? said : [texts.runs.calm]
  }
}
