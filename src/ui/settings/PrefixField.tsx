import { useState } from 'react'
import { isDevicePrefix } from '../../core/protocol/drawId.ts'
import { TextField } from '../shared/TextField.tsx'

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
    <TextField
      label={texts.label}
      hint={texts.hint}
      error={isDevicePrefix(typed) ? undefined : texts.error}
      maxLength={4}
      value={typed}
      onChange={(text) => {
        const next = text.toUpperCase()
        setTyped(next)
        if (isDevicePrefix(next)) onChange(next)
      }}
    />
  )
}
