import { useState } from 'react'
import type { LabelModel } from '../../core/record/labels.ts'
import { TubeLabel } from './TubeLabel.tsx'
import './labels.css'

export type LabelLayout = 'single' | 'sheet'

export interface LabelsScreenProps {
  readonly labels: readonly LabelModel[]
  readonly paper: 'A4' | 'letter'
  readonly startLayout?: LabelLayout
  readonly onPrint: () => void
  readonly onBack: () => void
}

const LAYOUTS: readonly { readonly id: LabelLayout; readonly text: string }[] = [
  { id: 'single', text: 'Label printer, 2 x 1 inch' },
  { id: 'sheet', text: 'Plain sheet' },
]

/** Labels for printing beside the patient, once the tubes are filled. */
export function LabelsScreen(props: LabelsScreenProps) {
  const { labels, paper, startLayout = 'single', onPrint, onBack } = props
  const [layout, setLayout] = useState(startLayout)
  const shortened = labels.some((label) => label.nameShortened)
  return (
    <main className={`labels-screen labels-screen--${layout} labels-screen--${paper}`}>
      <div className="labels-tools no-print">
        <h1>Labels</h1>
        <p>Print them now and put each one on its tube beside the patient. Then read each back.</p>
        <fieldset className="labels-layout">
          <legend>Print on</legend>
          {LAYOUTS.map(({ id, text }) => (
            <label key={id}>
              <input
                type="radio"
                name="label-layout"
                checked={layout === id}
                onChange={() => setLayout(id)}
              />
              {text}
            </label>
          ))}
        </fieldset>
        {shortened ? (
          <p role="note">
            * The name is too long for the label and is shortened. Compare the record number.
          </p>
        ) : null}
        <div className="labels-buttons">
          <button
            type="button"
            className="button go"
            onClick={onPrint}
            disabled={labels.length === 0}
          >
            Print labels
          </button>
          <button type="button" className="button" onClick={onBack}>
            Back
          </button>
        </div>
      </div>
      {labels.length === 0 ? (
        <p className="no-print">No tube holds blood yet, so there is nothing to label.</p>
      ) : (
        <ol className="labels-list">
          {labels.map((label) => (
            <li key={label.tubeId}>
              <TubeLabel label={label} />
              <p className="no-print labels-state">
                {label.readBack ? 'Read back' : 'Not read back yet'}
              </p>
            </li>
          ))}
        </ol>
      )}
    </main>
  )
}
