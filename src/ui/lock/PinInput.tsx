import { TextField } from '../shared/TextField.tsx'

interface PinInputProps {
  readonly label: string
  readonly hint?: string
  readonly error?: string | undefined
  readonly value: string
  readonly onChange: (pin: string) => void
}

/** A PIN in a form; what is typed is not shown and not remembered by the browser. */
export function PinInput({ label, hint, error, value, onChange }: PinInputProps) {
  return (
    <TextField
      label={label}
      hint={hint}
      error={error}
      type="password"
      inputMode="numeric"
      value={value}
      onChange={(typed) => onChange(typed.trim())}
    />
  )
}
