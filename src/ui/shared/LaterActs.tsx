import type { ChoiceView } from '../../app/view/drawViewTypes.ts'
import { useActions, useRecord, useServices } from './appContext.tsx'
import { useTexts } from './useTexts.ts'
import { NextDoseForm } from './NextDoseForm.tsx'
import { UnlabelledForm } from '../draw/UnlabelledForm.tsx'

/** What is recorded after the close: by touch, on this one record. */
export function LaterActs({ drawId }: { readonly drawId: string }) {
  const record = useRecord(drawId)
  const { laterActs } = useServices()
  const actions = useActions()
  const { later } = useTexts().texts
  if (!record) return null
  const { way, trouble, unlabelled, doseAsked } = laterActs(record)
  if (way.length + trouble.length === 0 && doseAsked === undefined) return null
  return (
    <section className="laterActs noPrint" aria-labelledby="later-acts">
      <h2 id="later-acts">{way.length > 0 ? later.due : later.title}</h2>
      {way.length > 0 && <p className="soft">{later.about}</p>}
      <Acts drawId={drawId} acts={way} />
      {doseAsked !== undefined && <NextDoseForm series={doseAsked} />}
      {unlabelled.length > 0 && (
        <UnlabelledForm
          labels={unlabelled}
          isClosed
          onSend={(command) => void actions.addLater(drawId, command)}
        />
      )}
      {trouble.length > 0 && (
        <details className="more">
          <summary>{later.trouble}</summary>
          <Acts drawId={drawId} acts={trouble} />
        </details>
      )}
    </section>
  )
}

interface ActsProps {
  readonly drawId: string
  readonly acts: readonly ChoiceView[]
}

function Acts({ drawId, acts }: ActsProps) {
  const actions = useActions()
  return (
    <div className="rowOfButtons">
      {acts.map(({ command, label, tone }) => (
        <button
          key={command.type}
          type="button"
          className={tone === 'stop' ? 'button stop' : 'button'}
          onClick={() => void actions.addLater(drawId, command)}
        >
          {label}
        </button>
      ))}
    </div>
  )
}
