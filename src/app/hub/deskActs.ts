import type { Membership, Welcome } from '../../core/hub/membership.ts'
import type { JoinRequest } from '../../core/hub/join/joinMessages.ts'
import { sameName } from '../../core/hub/readRoster.ts'
import { deviceOf, devicesInUse, type Roster, type TrustedDevice } from '../../core/hub/roster.ts'
import type { Sign } from '../../core/log/exportFile.ts'
import type { ClinicKeys } from '../../ports/clinicKeys.ts'
import type { Hub } from '../../ports/hub.ts'
import type { HubRights } from '../../ports/hubRights.ts'
import { bytesOfRoster, rosterKey, signRoster, type RosterBook } from './rosterBook.ts'

export interface DeskDeps {
  readonly hub: Hub
  readonly book: RosterBook
  readonly keys: ClinicKeys
  readonly rights: HubRights
  /** The text of the clinic's desk file, as this desk keeps it. */
  readonly deskFile: () => Promise<string>
  /** Id of this desk. */
  readonly device: string
  readonly newId: () => string
}

/** A device is shut out at the hub, but the others do not know of it yet: the act has to be done again. */
export class HalfRevoked extends Error {
  override readonly name = 'HalfRevoked'
}

/** What only a desk does. Each rejects where it is not sure, and may be done again. */
export interface DeskActs {
  /** Lets a device in whose request was checked. */
  admit(request: Omit<JoinRequest, 'mac'>): Promise<Welcome>
  /**
   * Cuts a device off: at the hub, in the roster, and from what is sealed from now on.
   * Rejects with `HalfRevoked` where only the first was done.
   */
  revoke(device: string): Promise<void>
  /** Lets a device sign for the clinic from the next edition on. Never taken back: what it knows it knows. */
  makeDesk(device: string): Promise<void>
  isNameTaken(name: string, signingKey: string): boolean
}

/** The hub's own time: what it writes to a value that is put now. Devices' clocks differ by hours. */
async function hubNow_ms(hub: Hub, device: string): Promise<number> {
  const key = `site/moment/${device}`
  for (let tries = 0; tries < 3; tries++) {
    const before = await hub.keys.get(key)
    const put = await hub.keys.put(key, new Uint8Array([1]), before?.revision ?? 0)
    const now = put.kind === 'stored' ? await hub.keys.get(key) : undefined
    if (now) return now.at_ms
  }
  throw new Error('The time of the hub cannot be read.')
}

export function createDeskActs(deps: DeskDeps): DeskActs {
  const { hub, book, keys, rights, deskFile, device: self, newId } = deps
  const withDevice = (roster: Roster, device: TrustedDevice): Roster => ({
    ...roster,
    devices: [...roster.devices.filter(({ id }) => id !== device.id), device],
  })
  /** The same browser that joins again keeps its name at the hub, and with it its logs. */
  const heldBy = (roster: Roster, signingKey: string): TrustedDevice | undefined =>
    devicesInUse(roster).find((device) => device.signingKey === signingKey)

  return {
    isNameTaken: (name, signingKey) =>
      devicesInUse(book.roster()).some(
        (device) => device.signingKey !== signingKey && sameName(device.name) === sameName(name),
      ),
    async admit({ name, signingKey, sealingKey, passKey }) {
      const desk = await deskFile()
      const before = heldBy(book.roster(), signingKey)
      const id = before?.id ?? newId()
      const isDesk = before?.isDesk ?? false
      const jwt = await rights.sign(desk, { device: id, passKey, isDesk })
      const now_ms = await hubNow_ms(hub, self)
      // The old pass first: at no time does the roster name a pass less than the hub lets in.
      if (before && before.passKey !== passKey) await rights.cutOff(desk, [before.passKey])
      await book.publish((roster) => {
        const since_ms = deviceOf(roster, id)?.since_ms ?? now_ms
        return withDevice(roster, { id, name, signingKey, sealingKey, passKey, since_ms, isDesk })
      })
      return { clinic: book.roster().clinic, device: id, jwt, roster: book.signed() }
    },
    async revoke(id) {
      const device = deviceOf(book.roster(), id)
      if (!device || id === self) throw new Error(`No device to cut off: ${id}`)
      await rights.cutOff(await deskFile(), [device.passKey])
      if (device.revoked_ms !== undefined) return
      try {
        const now_ms = await hubNow_ms(hub, self)
        const key = await keys.mint()
        await book.publish((roster) => {
          const now = deviceOf(roster, id)
          // Another desk was first: it has changed the key as well.
          if (!now || now.revoked_ms !== undefined) return undefined
          return { ...withDevice(roster, { ...now, revoked_ms: now_ms }), key }
        })
      } catch (error) {
        throw new HalfRevoked(`${id} is cut off at the hub and not yet in the roster.`, {
          cause: error,
        })
      }
    },
    makeDesk: (id) =>
      book.publish((roster) => {
        const now = deviceOf(roster, id)
        const may = now && !now.isDesk && now.revoked_ms === undefined
        return may ? withDevice(roster, { ...now, isDesk: true }) : undefined
      }),
  }
}

export interface FirstDesk {
  readonly clinic: string
  readonly deskFile: string
  readonly name: string
  readonly device: string
  readonly signingKey: string
  readonly now_ms: number
}

/** Makes a clinic of one device: its first key, its first roster, its own pass. Nothing of it is at the hub yet. */
export async function foundClinic(
  first: FirstDesk,
  {
    keys,
    rights,
    sign,
  }: { readonly keys: ClinicKeys; readonly rights: HubRights; readonly sign: Sign },
): Promise<Membership> {
  const { clinic, device, name, signingKey, now_ms, deskFile } = first
  const { passKey, seed } = await rights.newPass()
  const jwt = await rights.sign(deskFile, { device, passKey, isDesk: true })
  const key = await keys.rotate()
  const sealingKey = await keys.identity()
  const me = { id: device, name, signingKey, sealingKey, passKey, since_ms: now_ms, isDesk: true }
  const roster: Roster = {
    format: 'stillhand-roster',
    version: 1,
    clinic,
    edition: 1,
    key,
    devices: [me],
  }
  const signed = await signRoster(roster, device, { keys, sign })
  return { clinic, device, pass: { jwt, seed }, roster: signed }
}

/**
 * Puts the first edition at the hub. False when another first desk was there: this device has founded nothing.
 */
export async function publishFirst(hub: Hub, { roster }: Membership): Promise<boolean> {
  const bytes = bytesOfRoster(roster)
  const put = await hub.keys.put(rosterKey(1), bytes, 0)
  if (put.kind === 'stored') return true
  return (
    put.now !== undefined &&
    new TextDecoder().decode(put.now.bytes) === new TextDecoder().decode(bytes)
  )
}
