import type { ExportFormat } from '../../app/appApi.ts'
import { useActions, useServices } from '../shared/appContext.tsx'

interface RecordToolsProps {
  readonly drawId: string
  readonly onCopy: () => void
  /** What came of copying. */
  readonly said: string
}

const EXPORTS: readonly (readonly [ExportFormat, string])[] = [
  ['note', 'Save note'],
  ['fhir', 'Save FHIR'],
  ['log', 'Save signed log'],
]

/** Ways to take a record along. */
export function RecordTools({ drawId, onCopy, said }: RecordToolsProps) {
  const actions = useActions()
  const { page } = useServices()
  const save = async (format: ExportFormat): Promise<void> => {
    const file = await actions.exportRecord(drawId, format)
    if (file) page.saveText(file)
  }
  return (
    <nav className="recordTools noPrint" aria-label="Record">
      <button type="button" className="button go" onClick={onCopy}>
        Copy as text
      </button>
      <button type="button" className="button" onClick={() => page.print()}>
        Print
      </button>
      <button
        type="button"
        className="button"
        onClick={() => void actions.go({ name: 'labels', drawId, from: 'chart' })}
      >
        Labels
      </button>
      {EXPORTS.map(([format, name]) => (
        <button key={format} type="button" className="button" onClick={() => void save(format)}>
          {name}
        </button>
      ))}
      <p className="said" role="status">
        {said}
      </p>
    </nav>
  )
}
