import { useState, type ReactNode } from 'react'
import {
  blankCells,
  cellsOf,
  type Cells,
  type EditableTable,
  type EditedTables,
} from '../../app/site/catalogue/editRows.ts'
import { RowEditor, type EditedRow } from './RowEditor.tsx'

/** Changing a table row by row: one row at a time, in a form of its own. */
export interface RowEditing {
  /** @param code of the row, or of the tube and lot as `TUBE LOT` */
  change(code: string): void
  /** A new row that says the same as another, but for its code. */
  another(code: string): void
  add(): void
  /** The form, while a row is open. */
  readonly form: ReactNode
}

/** @param onDone what a row that passed all checks puts in the place of the tables */
export function useRowEditing(
  table: EditableTable,
  tables: EditedTables,
  onDone: (next: EditedTables) => void,
): RowEditing {
  const [row, setRow] = useState<EditedRow>()
  const [opened, setOpened] = useState(0)
  const open = (at: number, cells: EditedRow['cells'], isNew: boolean): void => {
    setRow({ table, at, cells, isNew })
    setOpened(opened + 1)
  }
  const rowOf = (code: string) => {
    const rows = cellsOf(table, tables)
    const at = rows.findIndex((cells) => (cells.code ?? lotKey(cells)) === code)
    return { at, cells: rows[at], end: rows.length }
  }
  return {
    change: (code) => {
      const { at, cells } = rowOf(code)
      if (cells) open(at, cells, false)
    },
    another: (code) => {
      const { cells, end } = rowOf(code)
      if (cells) open(end, { ...cells, code: '', localCode: '', loinc: '' }, true)
    },
    add: () => {
      const blank = blankCells(table)
      const [tube] = tables.catalogue.tubes
      open(
        cellsOf(table, tables).length,
        table === 'stock' ? { ...blank, tubeCode: tube?.code ?? '' } : blank,
        true,
      )
    },
    form: row && (
      <RowEditor
        key={opened}
        row={row}
        tables={tables}
        onDone={(next) => {
          setRow(undefined)
          onDone(next)
        }}
        onLeave={() => setRow(undefined)}
      />
    ),
  }
}

const lotKey = ({ tubeCode, lot }: Cells): string => `${tubeCode} ${lot}`
