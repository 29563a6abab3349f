import { useEffect, useRef } from 'react'
import type { EditableTable } from '../../app/site/catalogue/editRows.ts'
import { useTexts } from '../shared/useTexts.ts'
import type { RowEditing } from './useRowEditing.tsx'

interface RowEditingBoxProps {
  readonly table: EditableTable
  readonly editing: RowEditing
}

/** The open row of a table, or the button that opens a new one; it has the focus again once a row was left. */
export function RowEditingBox({ table, editing }: RowEditingBoxProps) {
  const { form } = editing
  const t = useTexts().texts.catalogue.edit
  const button = useRef<HTMLButtonElement>(null)
  const wasOpen = useRef(false)
  const isOpen = form !== undefined
  useEffect(() => {
    if (wasOpen.current && !isOpen) button.current?.focus()
    wasOpen.current = isOpen
  }, [isOpen])
  return (
    form ?? (
      <p>
        <button type="button" className="button" ref={button} onClick={() => editing.add()}>
          {t.add[table]}
        </button>
      </p>
    )
  )
}
