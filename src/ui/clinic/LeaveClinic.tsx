import { useState } from 'react'
import { useActions, useApp } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import { useIsDrawing, type MemberView } from './useSetup.ts'

/** This device forgets what the clinic gave it; asked first, with what would be lost to the others. */
export function LeaveClinic({ view }: { readonly view: MemberView }) {
  const { clinicSetup } = useActions()
  const waiting_n = useApp((s) => s.clinic?.waiting_n ?? 0)
  const isDrawing = useIsDrawing()
  const { clinic, fill } = useClinicTexts()
  const { leave, drawing } = clinic.setup
  const [isAsked, setAsked] = useState(false)
  const desks = view.devices.filter((each) => each.isDesk && each.revoked_ms === undefined)
  const isLastDesk = view.isDesk && desks.length === 1
  return (
    <Section title={leave.title} about={leave.about}>
      {isDrawing && <p className="soft">{drawing}</p>}
      {!isAsked && (
        <div className="rowOfButtons">
          <button
            type="button"
            className="button stop"
            disabled={view.isBusy || isDrawing}
            onClick={() => setAsked(true)}
          >
            {leave.submit}
          </button>
        </div>
      )}
      {isAsked && (
        <div className="warnBox" role="alert">
          <p>{fill(leave.ask, { clinic: view.clinic })}</p>
          {waiting_n > 0 && <p>{fill(leave.waiting, { n: waiting_n })}</p>}
          {isLastDesk && <p>{leave.lastDesk}</p>}
          <p>{leave.list}</p>
          <div className="rowOfButtons">
            <button type="button" className="button" onClick={() => setAsked(false)}>
              {leave.no}
            </button>
            <button
              type="button"
              className="button stop"
              disabled={view.isBusy || isDrawing}
              onClick={() => void clinicSetup.leave()}
            >
              {leave.yes}
            </button>
          </div>
        </div>
      )}
    </Section>
  )
}
