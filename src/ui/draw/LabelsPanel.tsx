import type { ReactNode } from 'react'
import type { DrawView, LabelView } from '../../app/view/drawViewTypes.ts'
import { useTexts } from '../shared/useTexts.ts'

interface LabelsPanelProps {
  /** What may be done with the labels besides reading this one. */
  readonly children: ReactNode
  readonly view: Pick<DrawView, 'labels' | 'identifiers' | 'rack'>
}

/**
 * The one label to read now, large and beside the patient it has to name; the others as a strip of ticks. A scanner
 * types into the screen; nothing has to be clicked first.
 */
export function LabelsPanel({ view, children }: LabelsPanelProps) {
  const { texts, fill } = useTexts()
  const { draw } = texts
  const { labels } = view
  const next = labelNow(labels)
  return (
    <div className="labels">
      <div className="labelRow">
        {next && (
          <p className="labelNow">
            <span className="number figures">{next.number ?? draw.labelTake}</span>
            <span className="whose">
              <strong>
                {fill(draw.labelTube, { number: placeOf(view, next), tube: next.tubeName })}
              </strong>
              {view.identifiers.map(({ value }, i) => (
                <span key={i} className="figures">
                  {value}
                </span>
              ))}
            </span>
          </p>
        )}
        {children}
      </div>
      {next && next.number === undefined && <p className="soft">{draw.takeLabels}</p>}
      <ol className="bare labelStrip" aria-label={draw.labelsToRead}>
        {labels.map((label) => (
          <li
            key={label.tubeId}
            className={label.readBack ? 'done' : label === next ? 'next' : 'waiting'}
            {...(label === next && { 'aria-current': 'step' })}
          >
            <span className="name">
              {fill(draw.labelTube, { number: placeOf(view, label), tube: label.tubeName })}
            </span>{' '}
            <span className="state">{draw[stateOf(label, next)]}</span>
          </li>
        ))}
      </ol>
    </div>
  )
}

/** The label whose turn it is: first each tube gets one, then each is read back. */
export const labelNow = (labels: readonly LabelView[]): LabelView | undefined =>
  labels.find(({ number }) => number === undefined) ?? labels.find(({ readBack }) => !readBack)

/** The tube's number in order of draw, as the rack below it has it. */
const placeOf = ({ rack }: LabelsPanelProps['view'], { tubeId }: LabelView): number =>
  rack.findIndex(({ id }) => id === tubeId) + 1

function stateOf(
  label: LabelView,
  next: LabelView | undefined,
): 'labelDone' | 'labelTake' | 'labelNext' | 'labelWaiting' {
  if (label.readBack) return 'labelDone'
  if (label !== next) return 'labelWaiting'
  return label.number === undefined ? 'labelTake' : 'labelNext'
}
