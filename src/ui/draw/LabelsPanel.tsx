import type { DrawView, LabelView } from '../../app/view/drawViewTypes.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { useActions } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { AccessionForm } from './WriteForms.tsx'

interface LabelsPanelProps {
  readonly view: Pick<DrawView, 'drawId' | 'labels' | 'labelsBy'>
  readonly onSend: (command: Command) => void
}

/**
 * The labels to read back beside the patient, and before that, of the laboratory's own, to take for each tube. A
 * scanner types into the screen; nothing has to be clicked first.
 */
export function LabelsPanel({ view, onSend }: LabelsPanelProps) {
  const actions = useActions()
  const { draw } = useTexts().texts
  const { drawId, labels, labelsBy } = view
  const awaiting = labels.find(({ number }) => number === undefined)
  const next = awaiting ?? labels.find((label) => !label.readBack)
  return (
    <div className="labels">
      <p className="soft">{awaiting ? draw.takeLabels : draw.readLabels}</p>
      <ol className="bare" aria-label={draw.labelsToRead}>
        {labels.map((label) => (
          <li
            key={label.tubeId}
            className={label.readBack ? 'done' : label === next ? 'next' : 'waiting'}
            {...(label === next && { 'aria-current': 'step' })}
          >
            <span className="name">{label.tubeName}</span>
            <span className="number figures">{label.number}</span>
            <span className="state">{draw[stateOf(label, next)]}</span>
          </li>
        ))}
      </ol>
      {labelsBy === 'laboratory' && next && (
        <AccessionForm key={next.tubeId} label={next} onSend={onSend} />
      )}
      <button
        type="button"
        className="choice plain"
        onClick={() => void actions.go({ name: 'labels', drawId, from: 'draw' })}
      >
        {draw.printLabels}
      </button>
    </div>
  )
}

function stateOf(
  label: LabelView,
  next: LabelView | undefined,
): 'labelDone' | 'labelTake' | 'labelNext' | 'labelWaiting' {
  if (label.readBack) return 'labelDone'
  if (label !== next) return 'labelWaiting'
  return label.number === undefined ? 'labelTake' : 'labelNext'
}
