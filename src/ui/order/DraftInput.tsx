import { SelectField } from '../shared/SelectField.tsx'
import { TextField } from '../shared/TextField.tsx'
import { Tick } from '../shared/Tick.tsx'
import { useState } from 'react'
import { DateField } from '../shared/DateField.tsx'
import { useServices } from '../shared/appContext.tsx'
import { draftNumberFault } from '../../app/order/readDraft.ts'
import { mayBecomeNumber, type NumberField } from '../../app/order/draftNumbers.ts'
import type { OrderDraft } from '../../app/order/orderDraft.ts'
import { fieldId, useDraft } from './useDraft.ts'

type TypedField = {
  [K in keyof OrderDraft]-?: OrderDraft[K] extends string
    ? string extends OrderDraft[K]
      ? K
      : never
    : never
}[keyof Required<OrderDraft>]

interface DraftInputProps {
  readonly field: TypedField
  readonly label: string
  readonly hint?: string
  readonly required?: boolean
}

/** A typed field of the form. */
export function DraftInput({ field, label, hint, required }: DraftInputProps) {
  const { draft, edit, errorOf } = useDraft()
  return (
    <TextField
      id={fieldId(field)}
      label={label}
      hint={hint}
      error={errorOf(field)}
      required={required ?? false}
      value={draft[field]}
      onChange={(typed) => edit({ [field]: typed })}
    />
  )
}

interface DraftNumberProps {
  readonly field: NumberField
  readonly label: string
  readonly hint?: string
}

/** A field of figures: a letter in it is said at once, a value out of range when the field is left. */
export function DraftNumber({ field, label, hint }: DraftNumberProps) {
  const { draft, edit, errorOf } = useDraft()
  const { site } = useServices()
  const [left, setLeft] = useState(false)
  const typed = draft[field]
  const fault =
    left || !mayBecomeNumber(typed) ? draftNumberFault(field, typed, site.texts) : undefined
  return (
    <TextField
      id={fieldId(field)}
      label={label}
      hint={hint}
      error={errorOf(field) ?? fault}
      inputMode="decimal"
      value={typed}
      onBlur={() => setLeft(true)}
      onChange={(next) => {
        setLeft(false)
        edit({ [field]: next })
      }}
    />
  )
}

interface DraftDayProps {
  readonly field: 'birthDate'
  readonly label: string
  readonly required?: boolean
}

/** A day of the form. */
export function DraftDay({ field, label, required }: DraftDayProps) {
  const { draft, edit, errorOf } = useDraft()
  return (
    <DateField
      id={fieldId(field)}
      label={label}
      required={required ?? false}
      error={errorOf(field)}
      value={draft[field]}
      onChange={(day) => edit({ [field]: day })}
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
  | 'feeding'
  | 'transfused'
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
