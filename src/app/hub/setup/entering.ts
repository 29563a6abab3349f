import { hubSiteText, type HubSite } from '../../../core/hub/hubSite.ts'
import { membershipText, readMembership, type Membership } from '../../../core/hub/membership.ts'
import type { ClinicKeys } from '../../../ports/clinicKeys.ts'
import type { HubStore } from '../../../ports/hubStore.ts'
import type { SecretStore } from '../../../ports/secretStore.ts'
import type { SettingsStore } from '../../../ports/settingsStore.ts'
import { forgetSharedSite } from './sharedSite.ts'
import type { ClinicSetupDeps } from './clinicSetup.ts'
import { HUB_JOINING_KEY, HUB_SITE_KEY } from './findHub.ts'

export interface EnteringDeps {
  readonly site: HubSite
  readonly secrets: Pick<SecretStore, 'read' | 'update'>
  readonly keys: Pick<ClinicKeys, 'forget'>
  readonly hubStore: Pick<HubStore, 'clear'>
  readonly settingsStore: Pick<SettingsStore, 'write'>
  /** The other pages of this device look how it stands now. */
  readonly tellOthers: () => void
  readonly startAnew: () => void
}

/** The end of the first pass's signature: another one with each joining, and no secret. */
const joiningOf = ({ device, pass }: Membership): string => `${device} ${pass.jwt.slice(-16)}`

/** How a device comes to belong to a clinic, and ceases to: in both cases the app begins anew. */
export function createEntering({
  site,
  secrets,
  keys,
  hubStore,
  settingsStore,
  tellOthers,
  startAnew,
}: EnteringDeps): Pick<ClinicSetupDeps, 'enter' | 'leave' | 'startAnew'> {
  return {
    startAnew,
    enter: async (membership) => {
      const text = await secrets.read('pass').catch(() => undefined)
      const before = text === undefined ? undefined : readMembership(text)
      const isSame = before?.clinic === membership.clinic && before.device === membership.device
      // What was read of another clinic, or under another name, tells nothing about this one.
      if (!isSame) {
        await hubStore.clear()
        await forgetSharedSite(settingsStore)
      }
      await secrets.update('pass', () => membershipText(membership))
      await settingsStore.write(HUB_JOINING_KEY, joiningOf(membership))
      // Last: with it the device counts as one of the clinic.
      await settingsStore.write(HUB_SITE_KEY, hubSiteText(site))
      tellOthers()
      startAnew()
    },
    leave: async () => {
      await settingsStore.write(HUB_SITE_KEY, '')
      tellOthers()
      await hubStore.clear()
      await forgetSharedSite(settingsStore)
      await keys.forget()
      startAnew()
    },
  }
}
