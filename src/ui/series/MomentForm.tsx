import { useState } from 'react'
import type { NotedMoment } from '../../core/order/sitting.ts'
import type { Series } from '../../core/record/seriesRecord.ts'
import { timeOfDay } from '../../core/time/format.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { TextField } from '../shared/TextField.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface MomentFormProps {
  readonly series: Series
  readonly moment: NotedMoment
}

/** What a sample is counted from: told as it happens, or with its time; corrected with a reason, never in silence. */
export function MomentForm({ series, moment }: MomentFormProps) {
  const actions = useActions()
  const { site } = useServices()
  const { texts, fill } = useTexts()
  const { series: t } = texts
  const [time, setTime] = useState('')
  const [why, setWhy] = useState('')
  const told = series.moments.filter((each) => each.moment === moment)
  const last = told.at(-1)
  const isAhead = moment === 'nextDose'
  const name = isAhead ? t.nextDose : site.words.commands[moment]
  const at = (at_ms: number): string => timeOfDay({ at_ms, offset_min: series.offset_min })
  const say = (): void => {
    void actions.tellMoment(series.id, moment, { time, why })
    setTime('')
    setWhy('')
  }
  return (
    <div className="momentForm">
      <p>
        <strong>{name}</strong>{' '}
        <span className="figures">
          {last ? told.map((each) => at(each.at_ms)).join(' → ') : t.notTold}
        </span>
      </p>
      {!last && !isAhead && (
        <button
          type="button"
          className="button"
          onClick={() => void actions.tellMoment(series.id, moment)}
        >
          {fill(t.now, { moment: name })}
        </button>
      )}
      <details>
        <summary>{last ? t.correct : t.atTime}</summary>
        <TextField
          label={fill(t.time, { moment: name })}
          hint={isAhead ? t.nextDoseHint : t.timeHint}
          placeholder={texts.dates.timeExample}
          maxLength={5}
          value={time}
          onChange={setTime}
        />
        {last && <TextField label={t.why} value={why} onChange={setWhy} />}
        <button
          type="button"
          className="button"
          disabled={time === '' || (last !== undefined && why.trim() === '')}
          onClick={say}
        >
          {t.write}
        </button>
      </details>
    </div>
  )
}
