import { catalogueChanges, type TableChanges } from '../../app/site/catalogue/catalogueChanges.ts'
import type { TableFault } from '../../app/site/catalogue/readTable.ts'
import type { Result } from '../../core/basics/result.ts'
import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import { useTexts } from '../shared/useTexts.ts'
import { TableHead } from '../shared/TableHead.tsx'

/** A file that was looked at. */
export interface FilePreview {
  readonly file: string
  readonly reading: Result<Catalogue, TableFault>
  /** Faults beyond those of the reading. */
  readonly more: number
}

interface PreviewPanelProps {
  readonly preview: FilePreview
  readonly current: Catalogue
  readonly onAccept: (next: Catalogue) => void
  readonly onDiscard: () => void
}

/** What a file would change, or every fault in it by row and column. */
export function PreviewPanel({ preview, current, onAccept, onDiscard }: PreviewPanelProps) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { file, reading, more } = preview
  const next = reading.ok ? reading.value : current
  const { tests, tubes } = catalogueChanges(current, next)
  const changes = count(tests) + count(tubes)
  const summary = (): string => {
    if (!reading.ok) return fill(t.faulty, { n: reading.faults.length + more })
    return changes === 0 ? t.unchanged : fill(t.changes, { n: changes })
  }
  return (
    <section
      className={reading.ok ? 'warnBox' : 'stopBox'}
      aria-label={fill(t.previewOf, { file })}
    >
      <div role="status">
        <h3>{file}</h3>
        <p>{summary()}</p>
      </div>
      {!reading.ok && <TableFaults faults={reading.faults} />}
      <More n={more} />
      <Changes name="tests" changes={tests} />
      <Changes name="tubes" changes={tubes} />
      <div className="rowOfButtons">
        {changes > 0 && (
          <button type="button" className="button go" onClick={() => onAccept(next)}>
            {t.accept}
          </button>
        )}
        <button type="button" className="button" onClick={onDiscard}>
          {changes > 0 ? t.leave : t.close}
        </button>
      </div>
    </section>
  )
}

const FAULT_COLUMNS = ['table', 'row', 'column', 'fault'] as const

/** Every fault by table, row and column. */
export function TableFaults({ faults }: { readonly faults: readonly TableFault[] }) {
  const { catalogue: t } = useTexts().texts
  return (
    <table>
      <caption>{t.faults}</caption>
      <TableHead columns={FAULT_COLUMNS.map((column) => t.faultColumns[column])} />
      <tbody>
        {faults.map(({ table, row, column, text }, i) => (
          <tr key={i}>
            <td>{table}</td>
            <td>{row === 0 ? t.heading : row}</td>
            <td>{column === '' ? t.wholeRow : column}</td>
            <td>{text}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

interface ChangesProps {
  readonly name: 'tests' | 'tubes'
  readonly changes: TableChanges
}

function Changes({ name, changes }: ChangesProps) {
  const { texts, fill } = useTexts()
  const { catalogue: t } = texts
  const { added, removed, changed } = changes
  if (count(changes) === 0) return null
  return (
    <ul aria-label={t.changesTo[name]}>
      {added.length > 0 && <li>{fill(t.added[name], { list: added.join(', ') })}</li>}
      {removed.length > 0 && <li>{fill(t.removed[name], { list: removed.join(', ') })}</li>}
      {changed.slice(0, MOST_SHOWN).map(({ code, columns }) => (
        <li key={code}>{fill(t.changed, { code, columns: columns.join(', ') })}</li>
      ))}
      {changed.length > MOST_SHOWN && (
        <li>
          <More n={changed.length - MOST_SHOWN} />
        </li>
      )}
    </ul>
  )
}

/** More rows than anybody reads, and few enough to be drawn at once. */
const MOST_SHOWN = 50

function More({ n }: { readonly n: number }) {
  const { texts, fill } = useTexts()
  return n > 0 ? <p className="soft">{fill(texts.catalogue.more, { n })}</p> : null
}

const count = ({ added, removed, changed }: TableChanges): number =>
  added.length + removed.length + changed.length
