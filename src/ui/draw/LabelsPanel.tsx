import type { LabelView } from '../../app/view/drawViewTypes.ts'
import { useActions } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

interface LabelsPanelProps {
  readonly drawId: string
  readonly labels: readonly LabelView[]
}

/** The labels to read back beside the patient. A scanner types into the screen; nothing has to be clicked first. */
export function LabelsPanel({ drawId, labels }: LabelsPanelProps) {
  const actions = useActions()
  const { draw } = useTexts().texts
  const next = labels.find((label) => !label.readBack)
  return (
    <div className="labels">
      <p className="soft">{draw.readLabels}</p>
      <ol className="bare" aria-label={draw.labelsToRead}>
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
                ? draw.labelDone
                : label === next
                  ? draw.labelNext
                  : draw.labelWaiting}
            </span>
          </li>
        ))}
      </ol>
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
