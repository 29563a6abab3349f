import { TextField } from '../shared/TextField.tsx'
import { useState } from 'react'
import type { Approval } from '../../core/order/order.ts'
import { stopsToDecide, type StopToDecide } from '../../core/plan/decisions.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { useActions, useApp } from '../shared/appContext.tsx'
import { useTexts } from '../shared/useTexts.ts'

/** Stops that a named provider may pass: who, and why. Without that the draw does not open. */
export function Decisions({ plan }: { readonly plan: Plan }) {
  const approvals = useApp((s) => s.approvals)
  return (
    <>
      {stopsToDecide(plan).map((stop) => {
        const given = approvals.find(({ about }) => about === stop.about)
        return given ? (
          <Decided key={stop.about} approval={given} />
        ) : (
          <Decision key={stop.about} stop={stop} />
        )
      })}
    </>
  )
}

function Decided({ approval: { about, by, reason } }: { readonly approval: Approval }) {
  const { texts, fill } = useTexts()
  return (
    <section className="warnBox" aria-label={texts.plan.decideAbout[about]}>
      <h2>{texts.plan.decideAbout[about]}</h2>
      <p>{fill(texts.plan.decided, { by, reason })}</p>
    </section>
  )
}

function Decision({ stop: { about, stops } }: { readonly stop: StopToDecide }) {
  const actions = useActions()
  const { texts } = useTexts()
  const { plan: t } = texts
  const [by, setBy] = useState('')
  const [reason, setReason] = useState('')
  const [fault, setFault] = useState<string>()
  const decide = (): void => setFault(actions.approveStop({ about, by, reason }))
  return (
    <section className="stopBox" role="alert" aria-label={t.decideAbout[about]}>
      <h2>{t.decideAbout[about]}</h2>
      <ul>
        {stops.map(({ text }, i) => (
          <li key={i}>{text}</li>
        ))}
      </ul>
      <TextField label={t.decideBy} error={fault} value={by} onChange={setBy} />
      <TextField label={t.decideReason} value={reason} onChange={setReason} />
      <button type="button" className="button" onClick={decide}>
        {t.decide}
      </button>
    </section>
  )
}
