import { useEffect } from 'react'
import {
  rehearsalsCsv,
  rehearsalsJson,
  rehearsalsOf,
  type Rehearsal,
} from '../../app/figures/practiceProgress.ts'
import { calendarDate } from '../../core/time/format.ts'
import { useFigureTexts } from '../figures/useFigureTexts.ts'
import { useActions, useApp, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'

/** Rehearsals that are kept here, read when the screen is shown. */
export function useRehearsals(): readonly Rehearsal[] {
  const actions = useActions()
  const view = useApp((s) => s.figures)
  const draws = useApp((s) => s.draws)
  useEffect(() => {
    void actions.figures.read(0, true)
  }, [actions, draws])
  const ids = new Set(draws.map(({ drawId }) => drawId))
  return rehearsalsOf({ ...view, read: new Map([...view.read].filter(([id]) => ids.has(id))) })
}

/** How rehearsals went, to take along. */
export function Progress({ rehearsals }: { readonly rehearsals: readonly Rehearsal[] }) {
  const { page, now_ms, site } = useServices()
  const reading = useApp((s) => s.figures.reading)
  const { texts, fill } = useFigureTexts()
  const { progress } = texts
  const save = (ending: 'csv' | 'json'): void => {
    const today = calendarDate(here(now_ms()))
    const named = site.recordTexts.figures.progress
    page.saveText({
      name: fill(named.fileName, { today, ending }),
      type: ending === 'csv' ? 'text/csv' : 'application/json',
      text: ending === 'csv' ? rehearsalsCsv(rehearsals, named) : rehearsalsJson(rehearsals, named),
    })
  }
  return (
    <section className="practiceGroup" aria-labelledby="practice-progress">
      <h2 id="practice-progress" tabIndex={-1}>
        {progress.title}
      </h2>
      <p className="soft">{progress.about}</p>
      <p role="status">
        {reading
          ? fill(progress.reading, reading)
          : rehearsals.length === 0
            ? progress.none
            : fill(progress.count, { n: rehearsals.length })}
      </p>
      {rehearsals.length > 0 && (
        <div className="rowOfButtons">
          <button type="button" className="button" onClick={() => save('csv')}>
            {progress.saveCsv}
          </button>
          <button type="button" className="button" onClick={() => save('json')}>
            {progress.saveJson}
          </button>
        </div>
      )}
    </section>
  )
}
