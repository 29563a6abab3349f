import type { Cells, EditColumn } from '../../app/site/catalogue/editRows.ts'
import type { TableFault } from '../../app/site/catalogue/readTable.ts'
import type { Stranded } from '../../core/catalogue/stranded.ts'
import { useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface RowFaultsProps {
  readonly faults: readonly TableFault[]
  /** Place of the row from 0. */
  readonly at: number
  readonly columns: readonly string[]
}

/** How much is to be mended; what does not stand at a field of this row is named here. */
export function RowFaults({ faults, at, columns }: RowFaultsProps) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  if (faults.length === 0) return null
  const elsewhere = faults.filter(({ row, column }) => row !== at + 1 || !columns.includes(column))
  return (
    <div className="stopBox" role="alert">
      <p>{fill(t.edit.mend, { n: faults.length })}</p>
      {elsewhere.length > 0 && (
        <ul>
          {elsewhere.map(({ table, row, column, text }, i) => (
            <li key={i}>
              {row === 0
                ? text
                : fill(t.edit.elsewhere, { table, row, column: column || t.wholeRow, text })}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

/** Why a row stays: what else needs it, each in a sentence. */
export function RowRefusals({ refusals }: { readonly refusals: readonly Stranded[] }) {
  const { texts, fill } = useTexts()
  const t = texts.catalogue.edit
  const { additives } = useServices().site.texts.catalogue
  const words: Readonly<Record<string, string>> = additives
  if (refusals.length === 0) return null
  return (
    <div className="stopBox" role="alert">
      <p>{t.refused}</p>
      <ul>
        {refusals.map(({ what, name, missing }) => (
          <li key={`${what} ${name}`}>
            {fill(t.needs[what], {
              name,
              missing: missing.map((code) => (what === 'test' ? words[code] : code)).join(', '),
            })}
          </li>
        ))}
      </ul>
    </div>
  )
}

interface RowChangesProps {
  readonly columns: readonly EditColumn[]
  /** Empty for a new row. */
  readonly was: Cells
  readonly is: Cells
}

/** What the row says now and what it would say, column by column, before anything is taken over. */
export function RowChanges({ columns, was, is }: RowChangesProps) {
  const { texts, fill } = useTexts()
  const t = texts.catalogue.edit
  const changed = columns.filter((column) => (was[column] ?? '') !== (is[column] ?? ''))
  const shown = (cell: string | undefined): string => cell || t.nothing
  return (
    <section aria-label={t.wouldChange} className="rowChanges">
      {changed.length === 0 ? (
        <p className="soft">{t.noChange}</p>
      ) : (
        <dl>
          {changed.map((column) => (
            <div key={column}>
              <dt>{t.columns[column]}</dt>
              <dd>{fill(t.was, { was: shown(was[column]), is: shown(is[column]) })}</dd>
            </div>
          ))}
        </dl>
      )}
    </section>
  )
}
