import { Field } from './Field.tsx'
import './controls.css'

interface RangeFieldProps {
  readonly label: string
  /** From 0 to 1. */
  readonly value: number
  readonly onChange: (value: number) => void
}

const STEP = 0.05

/** How much of something, from none to all, on a ruler. */
export function RangeField({ label, value, onChange }: RangeFieldProps) {
  return (
    <Field label={label}>
      {(parts) => (
        <input
          {...parts}
          className="range"
          type="range"
          min="0"
          max="1"
          step={STEP}
          value={value}
          onChange={(event) => onChange(event.target.valueAsNumber)}
        />
      )}
    </Field>
  )
}
