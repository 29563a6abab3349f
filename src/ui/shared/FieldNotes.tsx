import { useTexts } from './useTexts.ts'

interface FieldNotesProps {
  /** What names the field on the page. */
  readonly of: string
  readonly error: string | undefined
  readonly hint: string | undefined
}

/** What is wrong with a field right below it, and the hint last. */
export function FieldNotes({ of, error, hint }: FieldNotesProps) {
  const { texts } = useTexts()
  return (
    <>
      {error && (
        <p className="error" data-lead={texts.app.fieldError} id={`${of}-error`}>
          {error}
        </p>
      )}
      {hint && (
        <p className="hint" id={`${of}-hint`}>
          {hint}
        </p>
      )}
    </>
  )
}

/** What an input points at so that its notes are read with it, and how it says that it is wrong or needed. */
export function notesFor(
  of: string,
  {
    error,
    hint,
    required,
  }: Pick<FieldNotesProps, 'error' | 'hint'> & { required?: boolean | undefined },
): { 'aria-describedby'?: string; 'aria-invalid'?: true; 'aria-required'?: true } {
  const told = [hint && `${of}-hint`, error && `${of}-error`].filter(Boolean).join(' ')
  return {
    ...(told && { 'aria-describedby': told }),
    ...(error && { 'aria-invalid': true }),
    ...(required && { 'aria-required': true }),
  }
}
