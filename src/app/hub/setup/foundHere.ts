import { membershipText, readMembership, type Membership } from '../../../core/hub/membership.ts'
import { deviceOf } from '../../../core/hub/roster.ts'
import { foundClinic, publishFirst } from '../deskActs.ts'
import type { ClinicSetupDeps } from './clinicSetup.ts'
import type { SetupTold } from './clinicSetupView.ts'
import { untilConnected } from './untilConnected.ts'

/** Makes this device the first desk of a clinic that nobody has founded. */
export function createFounding(deps: ClinicSetupDeps) {
  const { site, clock, keys, rights, secrets, deviceKey, hubWith, newId, enter } = deps

  /**
   * What an earlier try has kept may stand at the hub although nobody said so: the same is sent again, also by a page
   * that was loaded anew.
   */
  async function unsure(signingKey: string): Promise<Membership | undefined> {
    const text = await secrets.read('pass')
    const kept = text === undefined ? undefined : readMembership(text)
    if (!kept || kept.clinic !== site.clinic) return undefined
    const { roster, by } = kept.roster
    const isOurs = by === kept.device && deviceOf(roster, by)?.signingKey === signingKey
    return roster.edition === 1 && isOurs ? kept : undefined
  }

  async function draft(name: string, deskFile: string): Promise<Membership> {
    const { publicKey } = await deviceKey.identity()
    const before = await unsure(publicKey)
    if (before) return before
    const now_ms = clock.read().wall_ms
    const first = { clinic: site.clinic, deskFile, name, device: newId(), now_ms }
    const sign = (text: string): Promise<string> => deviceKey.sign(text)
    return foundClinic({ ...first, signingKey: publicKey }, { keys, rights, sign })
  }

  /** What is wrong with a desk file before anything is done with it. */
  function faultOf(deskFile: string): SetupTold | undefined {
    const clinic = rights.clinicOf(deskFile)
    if (clinic === undefined) return { kind: 'noDeskFile' }
    return clinic === site.clinic ? undefined : { kind: 'otherDeskFile', clinic }
  }

  /** Rejects with the error of the hub or of the disk; it may be done again. */
  return async (name: string, deskFile: string): Promise<SetupTold> => {
    const fault = faultOf(deskFile)
    if (fault) return fault
    const membership = await draft(name, deskFile)
    const hub = hubWith(membership.device, membership.pass)
    try {
      await untilConnected(hub, clock)
      // Kept before the hub knows of it: a page that is lost in between belongs to what it has founded.
      await secrets.update('desk', () => deskFile)
      await secrets.update('pass', () => membershipText(membership))
      const isFirst = await publishFirst(hub, membership)
      if (!isFirst) {
        await keys.forget()
        return { kind: 'foundedAlready' }
      }
    } finally {
      await hub.stop()
    }
    await enter(membership)
    return { kind: 'done', act: 'found' }
  }
}
