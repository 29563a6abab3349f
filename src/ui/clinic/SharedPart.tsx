import { useState } from 'react'
import { useActions } from '../shared/appContext.tsx'
import { Section } from '../shared/Section.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import type { MemberView } from './useSetup.ts'

/** What the desks gave to all devices, and at a desk the act of giving. */
export function SharedPart({ view }: { readonly view: MemberView }) {
  const { clinic, fill } = useClinicTexts()
  const { title, about, aboutDesk, none, inUse, changed, waiting, whats } = clinic.shared
  const nameOf = (desk: string): string => view.devices.find(({ id }) => id === desk)?.name ?? desk
  return (
    <Section title={title} about={about}>
      {view.shared.length === 0 && <p>{none}</p>}
      {view.shared.length > 0 && (
        <ul>
          {view.shared.map(({ what, edition, by, isWaiting, isChanged }) => (
            <li key={what}>
              {fill(isWaiting ? waiting : isChanged ? changed : inUse, {
                what: whats[what],
                edition,
                desk: nameOf(by),
              })}
            </li>
          ))}
        </ul>
      )}
      {view.isDesk && !view.isRival && (
        <>
          <p>{aboutDesk}</p>
          <Give view={view} />
        </>
      )}
    </Section>
  )
}

function Give({ view }: { readonly view: MemberView }) {
  const { clinicSetup } = useActions()
  const { clinic, fill } = useClinicTexts()
  const { give, giveAsk } = clinic.shared
  const { yes, no } = clinic.setup.devices
  const [isAsked, setAsked] = useState(false)
  if (!isAsked) {
    return (
      <div className="rowOfButtons">
        <button
          type="button"
          className="button"
          disabled={view.isBusy}
          onClick={() => setAsked(true)}
        >
          {give}
        </button>
      </div>
    )
  }
  return (
    <div className="warnBox" role="alert">
      <p>{fill(giveAsk, { clinic: view.clinic })}</p>
      <div className="rowOfButtons">
        <button type="button" className="button" onClick={() => setAsked(false)}>
          {no}
        </button>
        <button
          type="button"
          className="button go"
          disabled={view.isBusy}
          onClick={() => {
            setAsked(false)
            void clinicSetup.share()
          }}
        >
          {yes}
        </button>
      </div>
    </div>
  )
}
