import type { ExportFormat } from '../../app/appApi.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface RecordToolsProps {
  readonly drawId: string
  /** Somebody was stuck: there is an exposure record beside the chart. */
  readonly exposure: boolean
  readonly onCopy: () => void
  /** Puts the note or the request on paper. */
  readonly onPrint: (what: 'note' | 'request') => void
  /** What came of copying. */
  readonly said: string
}

const EXPORTS: readonly ExportFormat[] = ['note', 'strip', 'fhir', 'transaction', 'log']

/** Ways to take a record along. */
export function RecordTools({ drawId, exposure, onCopy, onPrint, said }: RecordToolsProps) {
  const actions = useActions()
  const { page } = useServices()
  const { chart } = useTexts().texts
  const save = async (format: ExportFormat): Promise<void> => {
    const file = await actions.exportRecord(drawId, format)
    if (file) page.saveText(file)
  }
  return (
    <nav className="recordTools noPrint" aria-label={chart.tools}>
      <button type="button" className="button go" onClick={onCopy}>
        {chart.copy}
      </button>
      <button type="button" className="button" onClick={() => onPrint('note')}>
        {chart.print}
      </button>
      <button type="button" className="button" onClick={() => onPrint('request')}>
        {chart.request}
      </button>
      <button
        type="button"
        className="button"
        onClick={() => void actions.go({ name: 'labels', drawId, from: 'chart' })}
      >
        {chart.labels}
      </button>
      {exposure && (
        <button
          type="button"
          className="button"
          onClick={() => void actions.go({ name: 'exposure', drawId })}
        >
          {chart.exposure.open}
        </button>
      )}
      {EXPORTS.map((format) => (
        <button key={format} type="button" className="button" onClick={() => void save(format)}>
          {chart.save[format]}
        </button>
      ))}
      <p className="said" role="status">
        {said}
      </p>
    </nav>
  )
}
