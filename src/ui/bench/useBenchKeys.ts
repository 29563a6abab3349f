import type { BenchRow } from '../../core/bench/benchBoard.ts'
import { useHold } from '../draw/useHold.ts'
import { useKeyReader } from '../shared/useKeyReader.ts'

/** One key for each act, the same wherever its button stands. `Backspace` takes the last act back, as in a draw. */
export const BENCH_KEYS = {
  spinStarted: '1',
  spinEnded: '2',
  separated: '3',
  stored: '4',
  bagged: '5',
  takeBack: 'Backspace',
} as const

/**
 * A key presses the button that shows it, with what is ticked there; a scanner's digits press nothing. For 600 ms after
 * each change the keys wait, so that one press too many never acts on what has moved up meanwhile.
 */
export function useBenchKeys(rows: readonly BenchRow[]): void {
  const hold = useHold(rows.map(({ specimen, step }) => `${specimen.number} ${step}`).join())
  useKeyReader((act) => {
    if (act.kind !== 'choose') return false
    const button = document.querySelector<HTMLButtonElement>(
      `button[aria-keyshortcuts="${act.key}"]:not(:disabled)`,
    )
    if (!button) return false
    if (hold.takes()) button.click()
    return true
  })
}
