import { shownNumber } from '../../core/basics/shownNumber.ts'
import type { FillWindow } from '../../core/flow/fillWindow.ts'
import { useTexts } from './useTexts.ts'
import { wholeHours } from '../../core/time/wholeHours.ts'

/** Figures with their units, in the words of the language. */
export function useUnits() {
  const { texts, fill } = useTexts()
  const { units } = texts
  const range = (low: number, high: number): string =>
    low === high ? shownNumber(low) : fill(units.range, { low, high })
  return {
    range,
    /** `4 mL`, `4.5 mL`, `2.75 mL`: no more places than the figure has. */
    mL: (volume_mL: number): string => fill(units.volume, { volume: Number(volume_mL.toFixed(2)) }),
    /** `5 to 8 s`. */
    fillTime: (window: FillWindow): string => {
      const [early, late] = [Math.round(window.early_s), Math.round(window.late_s)]
      return early === late
        ? fill(units.fillAbout, { late })
        : fill(units.fillWindow, { early, late })
    },
    /** `8 to 10 times`, `not needed`. */
    inversions: ({ min, max }: { readonly min: number; readonly max: number }): string => {
      if (max === 0) return units.noInversions
      return min === max
        ? fill(units.inversions, { n: min })
        : fill(units.inversionsRange, { min, max })
    },
    /** `90 min`, `8 h`. */
    minutes: (length_min: number): string => {
      const hours = wholeHours(length_min)
      return hours === undefined
        ? fill(units.minutes, { n: length_min })
        : fill(units.hours, { n: hours })
    },
    percent: (n: number): string => fill(units.percent, { n }),
  }
}
