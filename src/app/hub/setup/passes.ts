import { devicesInUse, type Roster, type TrustedDevice } from '../../../core/hub/roster.ts'
import type { HubRights } from '../../../ports/hubRights.ts'
import { putDeskValue, SITE, type DeskSigner } from './deskValues.ts'
import { readDeskValue } from '../../../core/hub/deskValue.ts'

const DAY_ms = 86_400_000
/** A pass counts for a year; so long before its end a desk signs the next, which leaves it a holiday. */
export const RENEW_BEFORE_ms = 60 * DAY_ms
const PASS_LIFE_ms = 365 * DAY_ms
/** Clocks of two desks differ; what ends this much earlier is still the newer one. */
const CLOCKS_DIFFER_ms = 2 * DAY_ms

/** Where the next pass of a device stands. It is no secret: it counts only with the device's own seed. */
export const passPlace = (device: string): string => `${SITE}/pass/${device}`

export interface RenewDeps extends DeskSigner {
  readonly rights: Pick<HubRights, 'sign'>
  readonly deskFile: string
  readonly passEnds_ms: (jwt: string) => number | undefined
}

/** Signs a pass for a device and puts it where the device finds it. */
export async function handPass(
  deps: RenewDeps,
  { id, passKey }: Pick<TrustedDevice, 'id' | 'passKey'>,
  isDesk: boolean,
): Promise<void> {
  const jwt = await deps.rights.sign(deps.deskFile, { device: id, passKey, isDesk })
  await putDeskValue(deps, passPlace(id), jwt)
}

/**
 * Signs the next pass of each device whose own is about to end, the desk's among them.
 * @param now_ms ms since 1970 UTC
 * @returns for whom
 * @throws HubError as the hub does; what was handed out stays
 */
export async function renewPasses(
  deps: RenewDeps,
  roster: Roster,
  now_ms: number,
): Promise<readonly string[]> {
  const renewed: string[] = []
  for (const device of devicesInUse(roster)) {
    const there = await deps.hub.keys.get(passPlace(device.id))
    const read = there ? readDeskValue(new TextDecoder().decode(there.bytes)) : 'shape'
    const known_ms = typeof read === 'string' ? undefined : deps.passEnds_ms(read.body)
    // The first pass goes to the device alone and stands nowhere.
    const ends_ms = known_ms ?? device.since_ms + PASS_LIFE_ms
    if (ends_ms - now_ms > RENEW_BEFORE_ms) continue
    await handPass(deps, device, device.isDesk)
    renewed.push(device.id)
  }
  return renewed
}

/** Whether a pass is to be kept in the place of the one that is. */
export function isBetterPass(
  next: string,
  now: string,
  passEnds_ms: (jwt: string) => number | undefined,
): boolean {
  if (next === now) return false
  const ends_ms = passEnds_ms(next)
  return ends_ms !== undefined && ends_ms >= (passEnds_ms(now) ?? 0) - CLOCKS_DIFFER_ms
}
