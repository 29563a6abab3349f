import { Field } from '../shared/Field.tsx'

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
    <Field label={label} hint={hint} error={error}>
      {(parts) => (
        <input
          {...parts}
          className="input"
          type="password"
          inputMode="numeric"
          autoComplete="off"
          value={value}
          onChange={(event) => onChange(event.target.value.trim())}
        />
      )}
    </Field>
  )
}
