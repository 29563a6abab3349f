import { useState } from 'react'
import type { KeptAside } from '../../app/hub/clinic.ts'
import { canonicalJson } from '../../core/log/canonicalJson.ts'
import { useApp, useServices } from '../shared/appContext.tsx'
import { useClinicTexts } from './useClinicTexts.ts'

/** What was recorded or sent and stands in no record: told until somebody has seen to it, never hidden. */
export function NotInRecords() {
  const view = useApp((s) => s.clinic)
  const prefix = useApp((s) => s.settings.devicePrefix)
  const { clinic, fill } = useClinicTexts()
  if (!view) return null
  const { aside, notTaken, faults, samePrefix: device } = view
  if (aside.length + notTaken.length + faults.length === 0 && device === undefined) return null
  return (
    <div className="warnBox" role="alert">
      {aside.map((each) => (
        <AsideOf key={each.drawId} aside={each} />
      ))}
      {notTaken.map(({ device, why, entries_n }) => (
        <p key={`${device} ${why}`}>
          {fill(clinic.notTaken, { n: entries_n, device, why: clinic.why[why] })}
        </p>
      ))}
      {device !== undefined && <p>{fill(clinic.samePrefix, { device, prefix })}</p>}
      {faults.map((fault) => (
        <p key={fault}>{clinic.faults[fault]}</p>
      ))}
    </div>
  )
}

/** Own entries behind which another device writes: which they are, to be read and to be saved. */
function AsideOf({ aside }: { readonly aside: KeptAside }) {
  const { drawId, entries_n, writer, entries } = aside
  const { clinic, fill } = useClinicTexts()
  const { page } = useServices()
  const [isShown, setShown] = useState(false)
  const values = { n: entries_n, draw: drawId, writer: writer || clinic.somebody }
  const lines = entries.map((entry) => canonicalJson(entry))
  const save = (): void =>
    page.saveText({
      name: `${drawId}-aside.txt`,
      type: 'text/plain',
      text: [fill(clinic.asideFile, values), ...lines, ''].join('\n'),
    })
  return (
    <div>
      <p>{fill(clinic.aside, values)}</p>
      <button type="button" className="button quiet" onClick={() => setShown(!isShown)}>
        {isShown ? clinic.hideAside : clinic.showAside}
      </button>
      <button type="button" className="button quiet" onClick={save}>
        {clinic.saveAside}
      </button>
      {isShown && (
        <ol start={aside.from_seq}>
          {lines.map((line, i) => (
            <li key={i}>
              <code>{line}</code>
            </li>
          ))}
        </ol>
      )}
    </div>
  )
}
