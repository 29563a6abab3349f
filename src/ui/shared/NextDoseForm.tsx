import { useState } from 'react'
import { useActions } from './appContext.tsx'
import { TextField } from './TextField.tsx'
import { useTexts } from './useTexts.ts'

/** When the dose is due that a sample stands before: told in the draw or after it, by its time. */
export function NextDoseForm({ series }: { readonly series: string }) {
  const actions = useActions()
  const { texts, fill } = useTexts()
  const { series: t } = texts
  const [time, setTime] = useState('')
  return (
    <form
      className="oneLine"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (time.trim() === '') return
        void actions.tellMoment(series, 'nextDose', { time: time.trim(), why: '' })
        setTime('')
      }}
    >
      <TextField
        label={fill(t.time, { moment: t.nextDose })}
        hint={t.nextDoseHint}
        placeholder={texts.dates.timeExample}
        maxLength={5}
        value={time}
        onChange={setTime}
      />
      <button type="submit" className="choice plain">
        <span className="label">{t.write}</span>
      </button>
    </form>
  )
}
