import type { HTMLInputTypeAttribute } from 'react'
import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { Field } from '../shared/Field.tsx'
import { fieldId, useDraft } from './useDraft.ts'

type TextField = {
  [K in keyof OrderDraft]: OrderDraft[K] extends string
    ? string extends OrderDraft[K]
      ? K
      : never
    : never
}[keyof OrderDraft]

interface DraftInputProps {
  readonly field: TextField
  readonly label: string
  readonly hint?: string
  readonly type?: HTMLInputTypeAttribute
  readonly inputMode?: 'text' | 'decimal' | 'numeric'
}

/** A typed field of the form. */
export function DraftInput({ field, label, hint, type, inputMode }: DraftInputProps) {
  const { draft, edit, errorOf } = useDraft()
  return (
    <Field id={fieldId(field)} label={label} hint={hint} error={errorOf(field)}>
      {(parts) => (
        <input
          {...parts}
          className="input"
          type={type ?? 'text'}
          inputMode={inputMode}
          autoComplete="off"
          value={draft[field]}
          onChange={(event) => edit({ [field]: event.target.value })}
        />
      )}
    </Field>
  )
}

type ChoiceField =
  | 'sex'
  | 'priority'
  | 'anticoagulant'
  | 'latexAllergy'
  | 'antisepticAllergy'
  | 'faintedBefore'
  | 'restrictionLeft'
  | 'restrictionRight'

interface DraftSelectProps<K extends ChoiceField> {
  readonly field: K
  readonly label: string
  readonly hint?: string
  readonly options: readonly OrderDraft[K][]
  /** The words for an answer. */
  readonly nameOf: (option: OrderDraft[K]) => string
}

/** A field with a few fixed answers. */
export function DraftSelect<K extends ChoiceField>({
  field,
  label,
  hint,
  options,
  nameOf,
}: DraftSelectProps<K>) {
  const { draft, edit, errorOf } = useDraft()
  return (
    <Field id={fieldId(field)} label={label} hint={hint} error={errorOf(field)}>
      {(parts) => (
        <select
          {...parts}
          className="input"
          value={draft[field]}
          onChange={(event) => edit({ [field]: event.target.value })}
        >
          {options.map((option) => (
            <option key={option} value={option}>
              {nameOf(option)}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

interface DraftTickProps {
  readonly field: 'oneName'
  readonly label: string
}

export function DraftTick({ field, label }: DraftTickProps) {
  const { draft, edit } = useDraft()
  return (
    <label className="tick">
      <input
        id={fieldId(field)}
        type="checkbox"
        checked={draft[field]}
        onChange={(event) => edit({ [field]: event.target.checked })}
      />
      {label}
    </label>
  )
}
