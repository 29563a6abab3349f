import { useEffect, useId, useRef, useState, type FormEvent } from 'react'
import {
  cellsOf,
  EDIT_SHAPES,
  withRow,
  type Cells,
  type EditableTable,
  type EditedTables,
} from '../../app/site/catalogue/editRows.ts'
import type { TableFault } from '../../app/site/catalogue/readTable.ts'
import { stranded, type Stranded } from '../../core/catalogue/stranded.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { RowField } from './RowField.tsx'
import { RowChanges, RowFaults, RowRefusals } from './RowNotes.tsx'

/** Which row is changed. */
export interface EditedRow {
  readonly table: EditableTable
  /** Its place from 0; the number of rows for a new one. */
  readonly at: number
  /** What it begins with. */
  readonly cells: Cells
  readonly isNew: boolean
}

interface RowEditorProps {
  readonly row: EditedRow
  readonly tables: EditedTables
  /** What the row puts in the place of the tables; nothing is kept by it. */
  readonly onDone: (next: EditedTables) => void
  readonly onLeave: () => void
}

/** One row of a table in a form: nothing typed is lost while anything is wrong with it. */
export function RowEditor({ row, tables, onDone, onLeave }: RowEditorProps) {
  const { table, at, cells: first, isNew } = row
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const site = useServices().site.texts
  const id = useId()
  const heading = useRef<HTMLHeadingElement>(null)
  const form = useRef<HTMLFormElement>(null)
  const [cells, setCells] = useState<Cells>(first)
  const [faults, setFaults] = useState<readonly TableFault[]>([])
  const [refusals, setRefusals] = useState<readonly Stranded[]>([])
  const columns = EDIT_SHAPES[table].columns
  useEffect(() => heading.current?.focus(), [])
  useEffect(() => {
    if (faults.length > 0) form.current?.querySelector<HTMLElement>('[aria-invalid]')?.focus()
  }, [faults])

  function take(next: Cells | undefined): void {
    const reading = withRow(table, tables, at, next, site)
    setFaults(reading.ok ? [] : reading.faults)
    const needed = reading.ok
      ? stranded(tables.catalogue, reading.value.catalogue, tables.stock)
      : []
    setRefusals(needed)
    if (reading.ok && needed.length === 0) onDone(reading.value)
  }

  const submit = (event: FormEvent): void => {
    event.preventDefault()
    // Only what was typed here: a count may have gone down meanwhile.
    const typed = columns.filter((column) => cells[column] !== first[column])
    const now = cellsOf(table, tables)[at] ?? first
    take({ ...now, ...Object.fromEntries(typed.map((column) => [column, cells[column] ?? ''])) })
  }
  const errorOf = (column: string): string | undefined =>
    faults.find((fault) => fault.row === at + 1 && fault.column === column)?.text
  const title = isNew
    ? t.edit.addTitle[table]
    : fill(t.edit.changeTitle, { name: first.name ?? first.lot ?? '', row: at + 1 })
  return (
    <form className="rowEditor" ref={form} onSubmit={submit} aria-labelledby={id} noValidate>
      <h3 id={id} tabIndex={-1} ref={heading}>
        {title}
      </h3>
      <p className="soft">{t.edit.about}</p>
      <RowFaults faults={faults} at={at} columns={columns} />
      <RowRefusals refusals={refusals} />
      <div className="rowFields">
        {columns.map((column) => (
          <RowField
            key={column}
            id={`${id}-${column}`}
            column={column}
            value={cells[column] ?? ''}
            error={errorOf(column)}
            onChange={(cell) => setCells({ ...cells, [column]: cell })}
          />
        ))}
      </div>
      <RowChanges columns={columns} was={isNew ? {} : first} is={cells} />
      <div className="rowOfButtons">
        <button type="submit" className="button go">
          {table === 'stock' ? t.edit.saveLot : t.edit.save}
        </button>
        <button type="button" className="button" onClick={onLeave}>
          {t.edit.leave}
        </button>
        {!isNew && (
          <button type="button" className="button stop" onClick={() => take(undefined)}>
            {t.edit.takeOut}
          </button>
        )}
      </div>
    </form>
  )
}
