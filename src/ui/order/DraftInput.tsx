import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Tick } from '../shared/Tick.tsx'
import type { HTMLInputTypeAttribute } from 'react'
import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { fieldId, useDraft } from './useDraft.ts'

type TypedField = {
  [K in keyof OrderDraft]: OrderDraft[K] extends string
    ? string extends OrderDraft[K]
      ? K
      : never
    : never
}[keyof OrderDraft]

interface DraftInputProps {
  readonly field: TypedField
  readonly label: string
  readonly hint?: string
  readonly type?: HTMLInputTypeAttribute
  readonly inputMode?: 'text' | 'decimal' | 'numeric'
}

/** A typed field of the form. */
export function DraftInput({ field, label, hint, type, inputMode }: DraftInputProps) {
  const { draft, edit, errorOf } = useDraft()
  return (
    <TextField
      id={fieldId(field)}
      label={label}
      hint={hint}
      error={errorOf(field)}
      type={type ?? 'text'}
      inputMode={inputMode}
      value={draft[field]}
      onChange={(typed) => edit({ [field]: typed })}
    />
  )
}

type ChoiceField =
  | 'sex'
  | 'priority'
  | 'anticoagulant'
  | 'latexAllergy'
  | 'antisepticAllergy'
  | 'antisepticAllergyToo'
  | 'faintedBefore'
  | 'collecting'
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
    <SelectField
      id={fieldId(field)}
      label={label}
      hint={hint}
      error={errorOf(field)}
      options={options}
      nameOf={nameOf}
      value={draft[field]}
      onChange={(chosen) => edit({ [field]: chosen })}
    />
  )
}

interface DraftTickProps {
  readonly field: 'oneName'
  readonly label: string
}

export function DraftTick({ field, label }: DraftTickProps) {
  const { draft, edit } = useDraft()
  return (
    <Tick
      id={fieldId(field)}
      label={label}
      checked={draft[field]}
      onChange={(checked) => edit({ [field]: checked })}
    />
  )
}
