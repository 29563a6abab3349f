import { fillText } from '../../core/basics/fillText.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { useServices } from '../shared/appContext.tsx'
import type { Fill } from '../shared/useTexts.ts'

/** The texts of the figures, and their numbers as a person reads them. */
export function useFigureTexts() {
  const { figures, screens } = useServices().site.texts
  const fill: Fill = (text, values) => fillText(text, values, screens.language)
  return {
    texts: figures,
    fill,
    day: dayMonthYear,
    /** `4.2 %` of a share of 1. */
    percent: (share: number): string =>
      fill(figures.percent, { n: Number((share * 100).toFixed(1)) }),
    /** `43 s`, with one place below ten. */
    seconds: (length_s: number): string =>
      fill(figures.seconds, { n: Number(length_s.toFixed(length_s < 10 ? 1 : 0)) }),
  }
}
