import type { InputHTMLAttributes } from 'react'
import { Field } from './Field.tsx'

type TextFieldProps = Omit<
  InputHTMLAttributes<HTMLInputElement>,
  'value' | 'onChange' | 'className' | 'autoComplete'
> & {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly value: string
  readonly onChange: (typed: string) => void
}

/** A typed field; the browser keeps nothing of what was typed, since it may name a patient. */
export function TextField({
  label,
  hint,
  error,
  id,
  required,
  value,
  onChange,
  ...rest
}: TextFieldProps) {
  return (
    <Field
      label={label}
      hint={hint}
      error={error}
      required={required ?? false}
      {...(id !== undefined && { id })}
    >
      {(parts) => (
        <input
          {...rest}
          {...parts}
          className="input"
          autoComplete="off"
          value={value}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </Field>
  )
}
