import type { LabelView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'

interface LabelsPanelProps {
  readonly drawId: string
  readonly labels: readonly LabelView[]
}

/** The labels to read back beside the patient. A scanner types into the screen; nothing has to be clicked first. */
export function LabelsPanel({ drawId, labels }: LabelsPanelProps) {
  const actions = useActions()
  const next = labels.find((label) => !label.readBack)
  return (
    <div className="labels">
      <p className="soft">Scan each label, or read its number aloud and compare.</p>
      <ol className="bare" aria-label="Labels to read back">
        {labels.map((label) => (
          <li
            key={label.tubeId}
            className={label.readBack ? 'done' : label === next ? 'next' : 'waiting'}
            {...(label === next && { 'aria-current': 'step' })}
          >
            <span className="name">{label.tubeName}</span>
            <span className="number figures">{label.specimenNumber}</span>
            <span className="state">
              {label.readBack
                ? '✓ Read back'
                : label === next
                  ? 'Read this one now'
                  : 'Still to read'}
            </span>
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="choice plain"
        onClick={() => void actions.go({ name: 'labels', drawId, from: 'draw' })}
      >
        Print the labels
      </button>
    </div>
  )
}
