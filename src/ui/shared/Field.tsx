import { useId } from 'react'
import type { ReactNode } from 'react'
import { FieldNotes, notesFor } from './FieldNotes.tsx'
import { useTexts } from './useTexts.ts'

/** What an input needs so that its label, hint and error are read with it. */
export interface FieldParts {
  readonly id: string
  readonly 'aria-describedby'?: string
  readonly 'aria-invalid'?: true
  readonly 'aria-required'?: true
}

interface FieldProps {
  readonly label: string
  readonly hint?: string | undefined
  readonly error?: string | undefined
  readonly id?: string
  /** Nothing goes on without it; said in words beside the label. */
  readonly required?: boolean
  readonly children: (parts: FieldParts) => ReactNode
}

/** Label above, then the input, what is wrong with it right below, and the hint last. */
export function Field({ label, hint, error, id, required, children }: FieldProps) {
  const { texts } = useTexts()
  const made = useId()
  const key = id ?? made
  return (
    <div className="field">
      <span className="labelRow">
        <label htmlFor={key}>{label}</label>
        {required && <span className="needed">{texts.app.required}</span>}
      </span>
      {children({
        id: key,
        ...notesFor(key, { error, hint, required }),
      })}
      <FieldNotes of={key} error={error} hint={hint} />
    </div>
  )
}
