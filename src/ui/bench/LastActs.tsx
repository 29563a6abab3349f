import type { ActSeen } from '../../app/view/benchViewTypes.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { BenchKey } from './BenchKey.tsx'
import { BENCH_KEYS } from './useBenchKeys.ts'
import { useBenchTexts } from './useBenchTexts.ts'

/** What was done last; what was said in error is taken back. */
export function LastActs() {
  const acts = useApp((s) => s.bench.acts)
  const actions = useActions()
  const { bench, fill } = useBenchTexts()
  if (acts.length === 0) return null
  const told = ({ type, specimens, at_ms }: ActSeen): string => {
    const n = specimens.reduce((sum, { tubeIds }) => sum + tubeIds.length, 0)
    return fill(bench.doneAt, { what: bench.doneActs[type], n, at: timeOfDay(here(at_ms)) })
  }
  return (
    <section className="benchGroup" aria-labelledby="bench-done">
      <h2 id="bench-done">{bench.done}</h2>
      <ul className="bare">
        {acts.map((act, nth) => (
          <li key={act.id} className="benchDone">
            <span>{told(act)}</span>
            <button
              type="button"
              className="button quiet"
              aria-label={fill(bench.takeBackOf, { what: told(act) })}
              aria-keyshortcuts={nth === 0 ? BENCH_KEYS.takeBack : undefined}
              onClick={() => void actions.bench.takeBack(act)}
            >
              {bench.takeBack}
              {nth === 0 && <BenchKey name={BENCH_KEYS.takeBack} />}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
