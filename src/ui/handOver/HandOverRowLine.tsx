import { useState } from 'react'
import type { HandOverRow, Refusal } from '../../core/handOver/handOverRow.ts'
import { dayAndTime } from '../../core/time/format.ts'
import { useActions, useServices } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { DropForm } from './DropForm.tsx'
import { Issues } from './SaidByServer.tsx'
import { useHandOverTexts } from './useHandOverTexts.ts'

/** One thing that is to stand at the record server: what it is, how it stands, and what can be done with it. */
export function HandOverRowLine({ row }: { readonly row: HandOverRow }) {
  const actions = useActions()
  const { texts, fill } = useHandOverTexts()
  const [isDropping, setDropping] = useState(false)
  const { key, kind, about, state, since_ms, refusal, by } = row
  const what = `${texts.kinds[kind]} ${about}`
  const how = state === 'dropped' && by ? fill(texts.droppedBy, { by }) : texts.rowStates[state]
  return (
    <li className="handOverRow" data-state={state}>
      <p>
        <strong className="figures">{what}</strong> {how}{' '}
        <span className="soft small figures">{dayAndTime(here(since_ms))}</span>
      </p>
      {refusal && <RefusedBy refusal={refusal} />}
      <div className="rowOfButtons">
        {state !== 'waiting' && state !== 'broughtIn' && (
          <button
            type="button"
            className="button"
            aria-label={fill(texts.againOf, { what })}
            onClick={() => void actions.handOver.again(key)}
          >
            {texts.again}
          </button>
        )}
        {(state === 'waiting' || state === 'refused') && !isDropping && (
          <button
            type="button"
            className="button quiet"
            aria-label={fill(texts.dropOf, { what })}
            onClick={() => setDropping(true)}
          >
            {texts.drop}
          </button>
        )}
        {kind === 'draw' && (
          <button
            type="button"
            className="button quiet"
            onClick={() => void actions.go({ name: 'chart', drawId: about })}
          >
            {texts.openChart}
          </button>
        )}
      </div>
      {isDropping && <DropForm rowKey={key} onEnd={() => setDropping(false)} />}
    </li>
  )
}

function RefusedBy({ refusal }: { readonly refusal: Refusal }) {
  const { texts } = useHandOverTexts()
  const { faults } = useServices().site.texts.recordServer
  if (refusal.by === 'server') return <Issues status={refusal.status} issues={refusal.issues} />
  return refusal.faults.map((fault) => (
    <p key={fault}>{fault === 'damaged' ? texts.damaged : faults[fault]}</p>
  ))
}
