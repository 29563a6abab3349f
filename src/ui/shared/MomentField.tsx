import { DateField } from './DateField.tsx'
import { TextField } from './TextField.tsx'
import { useTexts } from './useTexts.ts'

interface MomentFieldProps {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly id?: string
  /** `2026-11-25T06:30`, `''`, or what is typed of it so far. */
  readonly value: string
  readonly onChange: (moment: string) => void
}

/** A day with a time of day, by 24 hours. */
export function MomentField({ value, onChange, ...rest }: MomentFieldProps) {
  const { texts, fill } = useTexts()
  const [day = '', time = ''] = value.split('T')
  const set = (next: { readonly day?: string; readonly time?: string }): void => {
    const both = { day, time, ...next }
    onChange(both.time === '' ? both.day : `${both.day}T${both.time}`)
  }
  return (
    <div className="momentField">
      <DateField {...rest} value={day} onChange={(next) => set({ day: next })} />
      <TextField
        label={fill(texts.dates.timeOf, { what: rest.label })}
        placeholder={texts.dates.timeExample}
        maxLength={5}
        value={time}
        onChange={(next) => set({ time: next })}
      />
    </div>
  )
}
