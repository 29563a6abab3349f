import { useId } from 'react'
import type { ReactNode } from 'react'
import { useTexts } from './useTexts.ts'

/** What an input needs so that its label, hint and error are read with it. */
export interface FieldParts {
  readonly id: string
  readonly 'aria-describedby'?: string
  readonly 'aria-invalid'?: true
}

interface FieldProps {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly id?: string
  readonly children: (parts: FieldParts) => ReactNode
}

/** Label above, hint below, error beside the input it is about. */
export function Field({ label, hint, error, id, children }: FieldProps) {
  const { texts } = useTexts()
  const made = useId()
  const key = id ?? made
  const told = [hint && `${key}-hint`, error && `${key}-error`].filter(Boolean).join(' ')
  return (
    <div className="field">
      <label htmlFor={key}>{label}</label>
      {children({
        id: key,
        ...(told && { 'aria-describedby': told }),
        ...(error && { 'aria-invalid': true }),
      })}
      {hint && (
        <p className="hint" id={`${key}-hint`}>
          {hint}
        </p>
      )}
      {error && (
        <p className="error" data-lead={texts.app.fieldError} id={`${key}-error`}>
          {error}
        </p>
      )}
    </div>
  )
}
