import type { DrawMeasures } from './drawMeasures.ts'
import { fillFits, type FillFit } from './fillFit.ts'
import { personFigures, type PersonFigures } from './personFigures.ts'
import { PROPORTIONS, proportionFigure, type ProportionFigure } from './proportionFigure.ts'
import { stretchOf, stretchesTo, type Span } from './stretches.ts'
import { TIMES, timeFigure, type TimeFigure } from './timeFigure.ts'

/** What the draws of a span of time come to. */
export interface Figures {
  readonly span: Span
  /** First day of the first stretch, and today. */
  readonly from: string
  readonly to: string
  readonly draws: number
  readonly times: readonly TimeFigure[]
  readonly proportions: readonly ProportionFigure[]
  readonly fills: readonly FillFit[]
  /** Shown only where the site wants it. */
  readonly people: readonly PersonFigures[]
}

/**
 * The figures of patients' draws that are closed, or of practice alone: the two are never put together. A draw lies in
 * the stretch of the local day on which it was opened, by the clock of where it was.
 * @param today local day, `2026-11-25`; draws of a later day, from a clock that was wrong, are left out
 */
export function figuresOf(
  measures: readonly DrawMeasures[],
  span: Span,
  today: string,
  isPractice = false,
): Figures {
  const stretches = stretchesTo(today, span)
  const [from = today] = stretches
  const own = measures.filter(
    ({ practice, closed, day }) => practice === isPractice && closed && day >= from && day <= today,
  )
  const byStretch = new Map(stretches.map((first) => [first, [] as DrawMeasures[]]))
  for (const draw of own) byStretch.get(stretchOf(draw.day, span))?.push(draw)
  return {
    span,
    from,
    to: today,
    draws: own.length,
    times: TIMES.map((id) => timeFigure(id, byStretch)),
    proportions: PROPORTIONS.map((id) => proportionFigure(id, byStretch)),
    people: personFigures(own),
    fills: fillFits(own.flatMap(({ fills }) => fills)),
  }
}
