import { useId, type ClipboardEvent } from 'react'
import { dayOf, EMPTY_DAY, joinDay, splitDay, type DayParts } from '../../app/order/dayParts.ts'
import { FieldNotes, notesFor } from './FieldNotes.tsx'
import { Select } from './Select.tsx'
import { useTexts } from './useTexts.ts'

interface DateFieldProps {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly id?: string
  readonly required?: boolean
  /** `1980-05-31`, `''`, or what is typed of it so far: `1980--31`. */
  readonly value: string
  readonly onChange: (day: string) => void
}

/** A day as day, month by its name, and year: nobody can take one for the other. */
export function DateField(props: DateFieldProps) {
  const { label, hint, error, id, required, value, onChange } = props
  const { dates, app } = useTexts().texts
  const made = useId()
  const key = id ?? made
  const parts = splitDay(value)
  const set = (change: Partial<DayParts>): void => onChange(joinDay({ ...parts, ...change }))
  const onPaste = (event: ClipboardEvent): void => {
    const day = dayOf(event.clipboardData.getData('text'), dates.months)
    if (!day) return
    event.preventDefault()
    onChange(day)
  }
  const shared = {
    autoComplete: 'off',
    onPaste,
    ...notesFor(key, { error, hint, required }),
  }
  return (
    <div className="field" role="group" aria-labelledby={`${key}-label`}>
      <span className="labelRow">
        <span className="legend" id={`${key}-label`}>
          {label}
        </span>
        {required && <span className="needed">{app.required}</span>}
      </span>
      <div className="dateParts">
        <label>
          <span className="small soft">{dates.day}</span>
          <input
            {...shared}
            className="input"
            id={key}
            inputMode="numeric"
            maxLength={2}
            value={parts.day}
            onChange={({ target }) => set({ day: target.value })}
          />
        </label>
        <label>
          <span className="small soft">{dates.month}</span>
          <Select
            {...shared}
            value={parts.month}
            onChange={({ target }) => set({ month: target.value })}
          >
            <option value={EMPTY_DAY.month} aria-label={dates.noMonth} />
            {dates.months.map((name, index) => (
              <option key={index} value={String(index + 1).padStart(2, '0')}>
                {name}
              </option>
            ))}
          </Select>
        </label>
        <label>
          <span className="small soft">{dates.year}</span>
          <input
            {...shared}
            className="input"
            inputMode="numeric"
            maxLength={4}
            value={parts.year}
            onChange={({ target }) => set({ year: target.value })}
          />
        </label>
      </div>
      <FieldNotes of={key} error={error} hint={hint} />
    </div>
  )
}
