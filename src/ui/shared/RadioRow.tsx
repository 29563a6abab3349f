import { useId } from 'react'
import './controls.css'

interface RadioRowProps<T extends string> {
  readonly legend: string
  readonly options: readonly T[]
  /** The words for an answer. */
  readonly nameOf: (option: T) => string
  readonly value: T
  readonly onChange: (chosen: T) => void
}

/** One of a few, all of them in sight. */
export function RadioRow<T extends string>(props: RadioRowProps<T>) {
  const { legend, options, nameOf, value, onChange } = props
  const name = useId()
  return (
    <fieldset className="radioRow">
      <legend>{legend}</legend>
      {options.map((option) => (
        <label key={option} className="tick">
          <input
            type="radio"
            name={name}
            checked={value === option}
            onChange={() => onChange(option)}
          />
          {nameOf(option)}
        </label>
      ))}
    </fieldset>
  )
}
