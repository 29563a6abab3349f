import { useState } from 'react'
import { dayAndTime, dayOf } from '../../core/time/format.ts'
import type { TrustedDevice } from '../../core/hub/roster.ts'
import { useActions } from '../shared/appContext.tsx'
import { here } from '../shared/here.ts'
import { Section } from '../shared/Section.tsx'
import { useClinicTexts } from './useClinicTexts.ts'
import type { MemberView } from './useSetup.ts'

/** Those in use first, in the order in which they came; then those that were cut off, the last one first. */
const inOrder = (devices: readonly TrustedDevice[]): readonly TrustedDevice[] => [
  ...devices
    .filter(({ revoked_ms }) => revoked_ms === undefined)
    .sort((a, b) => a.since_ms - b.since_ms),
  ...devices
    .filter(({ revoked_ms }) => revoked_ms !== undefined)
    .sort((a, b) => (b.revoked_ms ?? 0) - (a.revoked_ms ?? 0)),
]

/** Who belongs to the clinic; a desk cuts off and makes desks. */
export function DeviceList({ view }: { readonly view: MemberView }) {
  const { devices } = useClinicTexts().clinic.setup
  return (
    <Section title={devices.title} about={devices.about}>
      <ul className="bare deviceList">
        {inOrder(view.devices).map((device) => (
          <DeviceRow key={device.id} device={device} view={view} />
        ))}
      </ul>
    </Section>
  )
}

interface DeviceRowProps {
  readonly device: TrustedDevice
  readonly view: MemberView
}

function DeviceRow({ device, view }: DeviceRowProps) {
  const { clinic, fill } = useClinicTexts()
  const { devices } = clinic.setup
  const { id, name, since_ms, revoked_ms, isDesk } = device
  const isMe = id === view.device
  const isGone = revoked_ms !== undefined
  const marks = [isDesk && devices.desk, isMe && devices.me].filter((mark) => mark !== false)
  const mayAct = view.isDesk && view.hasDeskFile && !view.isRival && !isMe && !isGone
  return (
    <li className={isGone ? 'deviceGone' : undefined}>
      <p>
        <strong>{name}</strong>
        {marks.length > 0 && <span> ({marks.join(', ')})</span>}{' '}
        <span className="soft figures">{fill(devices.since, { day: dayOf(here(since_ms)) })}</span>
        {isGone && (
          <>
            {' '}
            <span className="figures">
              {fill(devices.gone, { day: dayAndTime(here(revoked_ms)) })}
            </span>
          </>
        )}
      </p>
      {mayAct && <DeviceActs device={device} isBusy={view.isBusy} />}
    </li>
  )
}

type Asked = 'revoke' | 'makeDesk'

/** Neither is taken back, so each is asked about first. */
function DeviceActs({
  device,
  isBusy,
}: {
  readonly device: TrustedDevice
  readonly isBusy: boolean
}) {
  const { clinicSetup } = useActions()
  const { clinic, fill } = useClinicTexts()
  const { devices } = clinic.setup
  const { id, name, isDesk } = device
  const [asked, setAsked] = useState<Asked>()
  const act = (): void => {
    setAsked(undefined)
    void (asked === 'revoke' ? clinicSetup.revoke(id) : clinicSetup.makeDesk(id))
  }
  if (asked === undefined) {
    return (
      <div className="rowOfButtons">
        {!isDesk && (
          <button
            type="button"
            className="button quiet"
            disabled={isBusy}
            aria-label={fill(devices.makeDeskOf, { name })}
            onClick={() => setAsked('makeDesk')}
          >
            {devices.makeDesk}
          </button>
        )}
        <button
          type="button"
          className="button stop"
          disabled={isBusy}
          aria-label={fill(devices.cutOffOf, { name })}
          onClick={() => setAsked('revoke')}
        >
          {devices.cutOff}
        </button>
      </div>
    )
  }
  return (
    <div className="warnBox" role="alert">
      <p>{fill(asked === 'revoke' ? devices.cutOffAsk : devices.makeDeskAsk, { name })}</p>
      {asked === 'revoke' && isDesk && <p>{devices.cutOffDesk}</p>}
      <div className="rowOfButtons">
        <button type="button" className="button" onClick={() => setAsked(undefined)}>
          {devices.no}
        </button>
        <button type="button" className="button stop" disabled={isBusy} onClick={act}>
          {devices.yes}
        </button>
      </div>
    </div>
  )
}
