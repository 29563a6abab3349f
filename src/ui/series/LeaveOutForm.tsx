import { useState } from 'react'
import type { Series, SeriesSitting } from '../../core/record/seriesRecord.ts'
import { useActions } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface LeaveOutFormProps {
  readonly series: Series
  readonly left: readonly SeriesSitting[]
}

/** Sittings that will not be drawn, with the reason: the drink was vomited, the patient went home. */
export function LeaveOutForm({ series, left }: LeaveOutFormProps) {
  const actions = useActions()
  const { series: t } = useTexts().texts
  const [chosen, setChosen] = useState<readonly string[]>([])
  const [why, setWhy] = useState('')
  const keys = left.map(({ key }) => key).filter((key) => chosen.includes(key))
  const leave = (): void => {
    void actions.leaveOutSittings(series.id, keys, why)
    setChosen([])
    setWhy('')
  }
  return (
    <details className="leaveOut">
      <summary>{t.leaveOut}</summary>
      <p>{t.leaveOutAbout}</p>
      {left.map(({ key, part }) => (
        <Tick
          key={key}
          id={`leave ${series.id} ${key}`}
          label={part.point}
          checked={chosen.includes(key)}
          onChange={(checked) =>
            setChosen(checked ? [...chosen, key] : chosen.filter((other) => other !== key))
          }
        />
      ))}
      <TextField label={t.why} hint={t.whyHint} value={why} onChange={setWhy} />
      <button
        type="button"
        className="button"
        disabled={keys.length === 0 || why.trim() === ''}
        onClick={leave}
      >
        {t.leave}
      </button>
    </details>
  )
}
