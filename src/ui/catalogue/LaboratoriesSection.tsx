import { useState } from 'react'
import type { Shortened } from '../../app/intake/firstFaults.ts'
import { laboratoriesJson } from '../../app/site/catalogue/keptLaboratories.ts'
import type { PlaceFault } from '../../app/site/catalogue/readJson.ts'
import { SPECIMEN_KINDS } from '../../core/catalogue/catalogue.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { FileButton } from '../shared/FileButton.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { useUnits } from '../shared/useUnits.ts'
import { WideTable } from './WideTable.tsx'

type Reading = Shortened<readonly Laboratory[], PlaceFault>

/** Where specimens go; a site brings its own laboratories in after seeing what they would be. */
export function LaboratoriesSection() {
  const { site, page, intake } = useServices()
  const { laboratories, shippedLaboratories } = site
  const actions = useActions()
  const { laboratories: t } = useTexts().texts.catalogue
  const [preview, setPreview] = useState<Reading>()
  const choose = async (file: File): Promise<void> => setPreview(await intake.laboratories(file))
  const keep = (next: string): void => {
    void actions.keepLaboratories(next)
    setPreview(undefined)
  }
  const text = laboratoriesJson(laboratories)
  const save = (): void =>
    page.saveText({ name: 'laboratories.json', type: 'application/json', text })
  return (
    <section className="catalogue" aria-labelledby="laboratories-title">
      <h2 id="laboratories-title">{t.title}</h2>
      <p>{t.about}</p>
      <FileButton
        id="laboratories-file"
        label={t.file}
        accept=".json,application/json"
        onFile={(file) => void choose(file)}
      />
      {preview && (
        <PreviewOf
          preview={preview}
          onAccept={(next) => keep(laboratoriesJson(next))}
          onDiscard={() => setPreview(undefined)}
        />
      )}
      <div className="rowOfButtons">
        <button type="button" className="button" onClick={save}>
          {t.save}
        </button>
        {text !== laboratoriesJson(shippedLaboratories) && (
          <>
            <p>{t.own}</p>
            <button type="button" className="button" onClick={() => keep('')}>
              {t.undo}
            </button>
          </>
        )}
      </div>
      <LaboratoriesTable name={t.table} laboratories={laboratories} />
    </section>
  )
}

interface PreviewProps {
  readonly preview: Reading
  readonly onAccept: (next: readonly Laboratory[]) => void
  readonly onDiscard: () => void
}

function PreviewOf({ preview: { reading, more }, onAccept, onDiscard }: PreviewProps) {
  const { texts, fill } = useTexts()
  const { catalogue } = texts
  const t = catalogue.laboratories
  return (
    <div className={reading.ok ? 'warnBox' : 'stopBox'} role="status">
      {reading.ok ? (
        <>
          <p>{t.wouldBe}</p>
          <LaboratoriesTable name={t.title} laboratories={reading.value} />
          <button type="button" className="button go" onClick={() => onAccept(reading.value)}>
            {t.accept}
          </button>{' '}
        </>
      ) : (
        <>
          <p>{catalogue.mendFirst}</p>
          <ul>
            {reading.faults.map(({ place, text }, i) => (
              <li key={i}>
                {place === '' || place === '0' ? text : fill(t.fault, { place, text })}
              </li>
            ))}
          </ul>
          {more > 0 && <p className="soft">{fill(catalogue.more, { n: more })}</p>}
        </>
      )}
      <button type="button" className="button" onClick={onDiscard}>
        {t.leave}
      </button>
    </div>
  )
}

interface TableProps {
  readonly name: string
  readonly laboratories: readonly Laboratory[]
}

function LaboratoriesTable({ name, laboratories }: TableProps) {
  const { testName } = useServices()
  const { texts, fill } = useTexts()
  const { laboratories: t, specimens } = texts.catalogue
  const { minutes } = useUnits()
  return (
    <WideTable
      name={name}
      columns={[
        t.columns.name,
        t.columns.tests,
        t.columns.carried,
        t.columns.pickUps,
        t.columns.most,
      ]}
    >
      {laboratories.map(({ id, name: called, tests, carriedAt, pickUps, most_h }) => (
        <tr key={id}>
          <th scope="row">{called}</th>
          <td>{tests === 'rest' ? t.rest : tests.map(testName).join(', ')}</td>
          <td>
            {SPECIMEN_KINDS.map((kind) =>
              fill(t.carries, { kind: specimens.kinds[kind], how: t.carriedAt[carriedAt[kind]] }),
            ).join('; ')}
          </td>
          <td>{pickUps.join(', ') || t.onCall}</td>
          <td>{minutes(60 * most_h)}</td>
        </tr>
      ))}
    </WideTable>
  )
}
