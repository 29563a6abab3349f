import { useState } from 'react'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { labelsFor } from '../../core/record/labels.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { useActions, useApp, useRecord, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { PatientLine } from '../shared/PatientLine.tsx'
import { TubeLabel } from './TubeLabel.tsx'
import './labels.css'

export type LabelLayout = 'single' | 'sheet'

interface LabelsScreenProps {
  readonly drawId: string
  readonly from: 'draw' | 'chart'
  readonly startLayout?: LabelLayout
}

const LAYOUTS: readonly { readonly id: LabelLayout; readonly text: string }[] = [
  { id: 'single', text: 'Label printer, 2 x 1 inch' },
  { id: 'sheet', text: 'Plain sheet' },
]

/** Labels of one draw, for printing beside the patient once the tubes are filled. */
export function LabelsScreen({ drawId, from, startLayout = 'single' }: LabelsScreenProps) {
  const record = useRecord(drawId)
  const actions = useActions()
  if (!record) return <NoRecord />
  const onBack = (): void => void actions.go({ name: from, drawId })
  return <Labels record={record} startLayout={startLayout} onBack={onBack} />
}

interface LabelsProps {
  readonly record: DrawLog
  readonly startLayout: LabelLayout
  readonly onBack: () => void
}

function Labels({ record, startLayout, onBack }: LabelsProps) {
  const [layout, setLayout] = useState(startLayout)
  const paper = useApp((s) => s.settings.paper)
  const { page } = useServices()
  const labels = labelsFor(record)
  const shortened = labels.some((label) => label.nameShortened)
  return (
    <Frame
      title="Labels"
      under={<PatientLine opened={openingOf(record)} />}
      back={{ label: 'Back', onBack }}
    >
      <div className={`labelsScreen ${layout} ${paper}`}>
        <div className="noPrint">
          <p>
            Print them now and put each one on its tube beside the patient. Then read each back.
          </p>
          <fieldset className="labelsLayout">
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
          {shortened && (
            <p role="note">
              * The name is too long for the label and is shortened. Compare the record number.
            </p>
          )}
          <div className="labelsButtons">
            <button
              type="button"
              className="button go"
              onClick={() => page.print()}
              disabled={labels.length === 0}
            >
              Print labels
            </button>
          </div>
        </div>
        {labels.length === 0 ? (
          <p className="noPrint">No tube holds blood yet, so there is nothing to label.</p>
        ) : (
          <ol className="labelsList">
            {labels.map((label) => (
              <li key={label.tubeId}>
                <TubeLabel label={label} />
                <p className="noPrint labelState">
                  {label.readBack ? 'Read back' : 'Not read back yet'}
                </p>
              </li>
            ))}
          </ol>
        )}
      </div>
    </Frame>
  )
}
