import { exposureText } from '../../app/record/exposureText.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import { useActions, useApp, useRecord, useServices } from '../shared/appContext.tsx'
import { Frame } from '../shared/Frame.tsx'
import { NoRecord } from '../shared/NoRecord.tsx'
import { useTexts } from '../shared/useTexts.ts'
import { ExposureForm } from '../draw/WriteForms.tsx'
import './chart.css'

/** The exposure record of whoever was stuck, on a page of its own: it names the draw and never the patient. */
export function ExposureScreen({ drawId }: { readonly drawId: string }) {
  const record = useRecord(drawId)
  const { site } = useServices()
  const text = record && exposureText(record, site)
  return record && text !== undefined ? <Exposure record={record} text={text} /> : <NoRecord />
}

function Exposure({ record, text }: { readonly record: CheckedLog; readonly text: string }) {
  const actions = useActions()
  const { page } = useServices()
  const paper = useApp((s) => s.settings.paper)
  const { chart } = useTexts().texts
  const { drawId } = record
  const save = async (): Promise<void> => {
    const file = await actions.exportRecord(drawId, 'exposure')
    if (file) page.saveText(file)
  }
  const [head, ...blocks] = text.trim().split('\n\n')
  const [title, ...warnings] = (head ?? '').split('\n')
  return (
    <Frame
      title={chart.exposure.title}
      back={{ to: 'chart', onBack: () => void actions.go({ name: 'chart', drawId }) }}
    >
      <div className={`chartScreen exposureRecord ${paper}`}>
        <nav className="recordTools noPrint" aria-label={chart.exposure.tools}>
          <button type="button" className="button go" onClick={() => page.print()}>
            {chart.print}
          </button>
          <button type="button" className="button" onClick={() => void save()}>
            {chart.save.exposure}
          </button>
        </nav>
        <article className="note">
          <h2>{title}</h2>
          {warnings.map((line, i) => (
            <p key={i} className="noteWarning">
              {line}
            </p>
          ))}
          {blocks.map((block, i) => (
            <section key={i} className="noteSection">
              {block.split('\n').map((line, nth) => (
                <p key={nth}>{line}</p>
              ))}
            </section>
          ))}
          <p className="printSign" aria-hidden="true">
            <span>{chart.signature}</span>
            <i />
          </p>
        </article>
        <div className="noPrint">
          <ExposureForm onSend={(command) => void actions.addLater(drawId, command)} />
        </div>
      </div>
    </Frame>
  )
}
