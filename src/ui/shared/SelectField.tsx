import { Field } from './Field.tsx'
import { Select } from './Select.tsx'

interface SelectFieldProps<T extends string | number> {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly id?: string
  readonly options: readonly T[]
  /** The words for an answer. */
  readonly nameOf: (option: T) => string
  readonly value: T
  readonly onChange: (chosen: T) => void
}

/** A field with a few fixed answers. */
export function SelectField<T extends string | number>(props: SelectFieldProps<T>) {
  const { label, hint, error, id, options, nameOf, value, onChange } = props
  return (
    <Field label={label} hint={hint} error={error} {...(id !== undefined && { id })}>
      {(parts) => (
        <Select
          {...parts}
          value={value}
          onChange={(event) => {
            const chosen = options.find((option) => String(option) === event.target.value)
            if (chosen !== undefined) onChange(chosen)
          }}
        >
          {options.map((option) => (
            <option key={option} value={option}>
              {nameOf(option)}
            </option>
          ))}
        </Select>
      )}
    </Field>
  )
}
