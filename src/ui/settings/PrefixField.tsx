import { useState } from 'react'
import { isDevicePrefix } from '../../core/protocol/drawId.ts'
import { Field } from '../shared/Field.tsx'

export interface PrefixTexts {
  readonly label: string
  readonly hint: string
  readonly error: string
}

interface PrefixFieldProps {
  readonly value: string
  readonly texts: PrefixTexts
  readonly onChange: (prefix: string) => void
}

/**
 * The device's prefix, kept only once it can stand in a number and in bars. Letters become capitals as they are typed.
 */
export function PrefixField({ value, texts, onChange }: PrefixFieldProps) {
  const [typed, setTyped] = useState(value)
  return (
    <Field
      label={texts.label}
      hint={texts.hint}
      error={isDevicePrefix(typed) ? undefined : texts.error}
    >
      {(parts) => (
        <input
          {...parts}
          className="input"
          autoComplete="off"
          maxLength={4}
          value={typed}
          onChange={(event) => {
            const next = event.target.value.toUpperCase()
            setTyped(next)
            if (isDevicePrefix(next)) onChange(next)
          }}
        />
      )}
    </Field>
  )
}
