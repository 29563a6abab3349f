import { useState } from 'react'
import { SETTING_RANGES } from '../../app/site/settings.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Field } from '../shared/Field.tsx'

interface NumberSettingProps {
  readonly name: 'lockAfter_min' | 'retention_days'
  readonly label: string
  /** Tells the range, so that it is also the reason why a number is not kept. */
  readonly hint: string
}

/** A whole number of the settings, kept once it is within its range. */
export function NumberSetting({ name, label, hint }: NumberSettingProps) {
  const value = useApp((s) => s.settings[name])
  const [typed, setTyped] = useState(String(value))
  const actions = useActions()
  const [least, most] = SETTING_RANGES[name]
  const fits = (text: string): boolean =>
    /^\d+$/.test(text) && Number(text) >= least && Number(text) <= most
  const isWrong = !fits(typed)
  return (
    <Field label={label} hint={isWrong ? undefined : hint} error={isWrong ? hint : undefined}>
      {(parts) => (
        <input
          {...parts}
          className="input"
          inputMode="numeric"
          value={typed}
          onChange={(event) => {
            const next = event.target.value.trim()
            setTyped(next)
            if (fits(next)) actions.changeSettings({ [name]: Number(next) })
          }}
        />
      )}
    </Field>
  )
}
