import type { RunChart } from '../../core/figures/runChart.ts'
import { RUNS_FROM_n } from '../../core/figures/runsLimits.ts'
import { useFigureTexts } from './useFigureTexts.ts'

interface Point {
  /** First day of its stretch. */
  readonly from: string
  readonly isOut: boolean
}

/** What the points say, in sentences: those beyond the limits, and their order; that it says nothing is one too. */
export function useSignals() {
  const { texts, fill, day } = useFigureTexts()
  const runWords = (run: RunChart, froms: readonly string[], isOut: boolean): readonly string[] => {
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
  /** @param isFew too few cases to say anything of their order */
  return (run: RunChart, points: readonly Point[], isFew: boolean): readonly string[] => {
    const out = points.filter(({ isOut }) => isOut).map(({ from }) => day(from))
    const beyond = out.length > 0 ? [fill(texts.out, { n: out.length, when: out.join(', ') })] : []
    if (isFew) return beyond
    const froms = points.map(({ from }) => from)
    return [...beyond, ...runWords(run, froms, out.length > 0)]
  }
}
