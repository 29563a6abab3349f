import type { Rehearsal } from '../../app/figures/practiceProgress.ts'
import { useFigureTexts } from '../figures/useFigureTexts.ts'

/** How a script went last, and how it went best. */
export function LastScore({ own }: { readonly own: readonly Rehearsal[] }) {
  const { texts, fill, day } = useFigureTexts()
  const { progress } = texts
  const last = own.at(-1)
  if (!last) return null
  const best = own.reduce((a, b) => (b.points / b.of > a.points / a.of ? b : a), last)
  return (
    <p className="rehearsed figures">
      {fill(progress.last, { points: last.points, of: last.of, day: day(last.day) })}{' '}
      {own.length > 1 && fill(progress.best, { points: best.points, of: best.of })}
    </p>
  )
}
