import type { HubSiteFault } from '../../core/hub/hubSite.ts'
import { useClinicTexts } from './useClinicTexts.ts'

interface SiteFaultsProps {
  /** What becomes of this device by it. */
  readonly about: string
  readonly faults: readonly HubSiteFault[]
}

/** What the site's file of its hub says wrong. */
export function SiteFaults({ about, faults }: SiteFaultsProps) {
  const { siteFaults } = useClinicTexts().clinic.setup
  return (
    <div className="warnBox" role="alert">
      <p>{about}</p>
      {faults.map((fault) => (
        <p key={fault}>{siteFaults[fault]}</p>
      ))}
    </div>
  )
}
