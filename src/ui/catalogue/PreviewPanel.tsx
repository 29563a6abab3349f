import type { CataloguePreview, TableChanges } from '../../app/site/catalogue/previewCatalogue.ts'

interface PreviewPanelProps {
  readonly preview: CataloguePreview
  readonly onAccept: () => void
  readonly onDiscard: () => void
}

/** What a file would change, or every fault in it by row and column. */
export function PreviewPanel({ preview, onAccept, onDiscard }: PreviewPanelProps) {
  const { file, faults, tests, tubes, next } = preview
  const changes = count(tests) + count(tubes)
  return (
    <section
      className={faults.length > 0 ? 'stopBox' : 'warnBox'}
      aria-label={`Preview of ${file}`}
    >
      <div role="status">
        <h3>{file}</h3>
        <p>{summary(faults.length, changes)}</p>
      </div>
      {faults.length > 0 && (
        <table>
          <caption>Faults</caption>
          <thead>
            <tr>
              <th scope="col">Table</th>
              <th scope="col">Row</th>
              <th scope="col">Column</th>
              <th scope="col">What is wrong</th>
            </tr>
          </thead>
          <tbody>
            {faults.map(({ table, row, column, text }, i) => (
              <tr key={i}>
                <td>{table}</td>
                <td>{row === 0 ? 'heading' : row}</td>
                <td>{column === '' ? 'whole row' : column}</td>
                <td>{text}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <Changes name="tests" changes={tests} />
      <Changes name="tubes" changes={tubes} />
      <div className="rowOfButtons">
        {next && changes > 0 && (
          <button type="button" className="button go" onClick={onAccept}>
            Accept these changes
          </button>
        )}
        <button type="button" className="button" onClick={onDiscard}>
          {changes > 0 ? 'Leave it as it is' : 'Close'}
        </button>
      </div>
    </section>
  )
}

function Changes({ name, changes }: { name: string; changes: TableChanges }) {
  const { added, removed, changed } = changes
  if (count(changes) === 0) return null
  return (
    <ul aria-label={`Changes to ${name}`}>
      {added.length > 0 && (
        <li>
          New {name}: {added.join(', ')}
        </li>
      )}
      {removed.length > 0 && (
        <li>
          Removed {name}: {removed.join(', ')}
        </li>
      )}
      {changed.map(({ code, columns }) => (
        <li key={code}>
          Changed: {code} ({columns.join(', ')})
        </li>
      ))}
    </ul>
  )
}

const count = ({ added, removed, changed }: TableChanges): number =>
  added.length + removed.length + changed.length

function summary(faults: number, changes: number): string {
  if (faults > 0) {
    return `${faults === 1 ? '1 fault' : `${faults} faults`}. Correct the file and choose it again; nothing was changed.`
  }
  if (changes === 0) return 'The file says the same as the catalog.'
  return `${changes === 1 ? '1 change' : `${changes} changes`} when you accept.`
}
