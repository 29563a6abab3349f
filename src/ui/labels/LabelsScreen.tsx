import { useState } from 'react'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { labelsFor } from '../../core/record/labels.ts'
import { LABEL_ROWS, layLabel, type LabelStock } from '../../core/record/layLabel.ts'
import { labelWords } from '../../app/record/labelWords.ts'
import { logSaysWrongPerson } from '../../core/record/saysWrongPerson.ts'
import { openingOf } from '../../core/record/openingOf.ts'
import { useActions, useApp, useRecord, useServices } from '../shared/appContext.tsx'
import { BrokenRecord } from '../shared/BrokenRecord.tsx'
import { Frame } from '../shared/Frame.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { PatientLine } from '../shared/PatientLine.tsx'
import { RadioRow } from '../shared/RadioRow.tsx'
import type { Back } from '../shared/ScreenHeader.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { TubeLabel } from './TubeLabel.tsx'
import './labels.css'

export type LabelLayout = 'single' | 'large' | 'sheet'

interface LabelsScreenProps {
  readonly drawId: string
  readonly from: 'draw' | 'chart'
  readonly startLayout?: LabelLayout
}

const LAYOUTS: readonly LabelLayout[] = ['single', 'large', 'sheet']

/** Labels of one draw, for printing beside the patient once the tubes are filled. */
export function LabelsScreen({ drawId, from, startLayout = 'single' }: LabelsScreenProps) {
  const record = useRecord(drawId)
  const actions = useActions()
  const { texts } = useTexts()
  if (!record) return <NoRecord />
  const back: Back = { to: from, onBack: () => void actions.go({ name: from, drawId }) }
  if (record.fault) {
    // A label says whose blood this is: never from a record that may have been changed.
    return (
      <Frame title={texts.labels.title} back={back}>
        <BrokenRecord record={record} />
      </Frame>
    )
  }
  return <Labels record={record} startLayout={startLayout} back={back} />
}

interface LabelsProps {
  readonly record: CheckedLog
  readonly startLayout: LabelLayout
  readonly back: Back
}

function Labels({ record, startLayout, back }: LabelsProps) {
  const [layout, setLayout] = useState(startLayout)
  const paper = useApp((s) => s.settings.paper)
  const { page, site } = useServices()
  const { texts, fill } = useTexts()
  const all = labelsFor(record, labelWords(site))
  const isOfAnother = logSaysWrongPerson(record.entries)
  // Nothing is printed that would say once more whose blood it is not.
  const labels = isOfAnother
    ? []
    : all.filter(({ byLaboratory, unlabelled }) => !byLaboratory && !unlabelled)
  const bare = all.filter(({ unlabelled }) => unlabelled)
  const theirs = all.filter(({ byLaboratory }) => byLaboratory)
  const stock: LabelStock = layout === 'single' ? 'small' : 'large'
  const laid = labels.map((label) => ({ label, laid: layLabel(label, stock, texts.labels) }))
  const shortened = laid.some(({ laid: { shortened } }) => shortened)
  const dropped = LABEL_ROWS.filter((id) => laid.some((each) => each.laid.dropped.includes(id)))
  return (
    <Frame
      title={texts.labels.title}
      under={<PatientLine opened={openingOf(record)} />}
      back={back}
    >
      <div className={`labelsScreen ${layout} ${paper}`}>
        <div className="noPrint">
          <p>{texts.labels.about}</p>
          {isOfAnother && <p className="stopBox">{texts.labels.ofAnother}</p>}
          <div className="labelsButtons">
            <button
              type="button"
              className="button go"
              onClick={() => page.print()}
              disabled={labels.length === 0}
            >
              {texts.labels.print}
            </button>
          </div>
          <RadioRow
            legend={texts.labels.printOn}
            options={LAYOUTS}
            nameOf={(id) => texts.labels.layouts[id]}
            value={layout}
            onChange={setLayout}
          />
          {shortened && <p role="note">{texts.labels.shortened}</p>}
          {dropped.length > 0 && (
            <p role="note">
              {fill(texts.labels.noRoom, {
                rows: dropped.map((id) => texts.labels.rows[id]).join(', '),
              })}
            </p>
          )}
        </div>
        {bare.length > 0 && (
          <p className="noPrint" role="note">
            {fill(texts.labels.unlabelled, {
              tubes: bare.map(({ tubeName }) => tubeName).join(', '),
            })}
          </p>
        )}
        {theirs.length > 0 && (
          <section className="noPrint">
            <p>{texts.labels.byLaboratory}</p>
            <ul>
              {theirs.map(({ tubeId, tubeName, specimenNumber, readBack }) => (
                <li key={tubeId}>
                  {tubeName}: <strong className="figures">{specimenNumber}</strong>{' '}
                  {readBack ? texts.labels.readBack : texts.labels.notReadBack}
                </li>
              ))}
            </ul>
          </section>
        )}
        {labels.length === 0 && theirs.length + bare.length > 0 ? null : labels.length === 0 ? (
          <p className="noPrint">{texts.labels.none}</p>
        ) : (
          <ol className="labelsList">
            {laid.map(({ label, laid: each }) => (
              <li key={label.tubeId}>
                <TubeLabel label={label} laid={each} stock={stock} />
                <p className="noPrint labelState">
                  {label.readBack ? texts.labels.readBack : texts.labels.notReadBack}
                </p>
              </li>
            ))}
          </ol>
        )}
      </div>
    </Frame>
  )
}
