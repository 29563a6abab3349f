import { vi, expect } from 'vitest'
import { createClinicKeys } from '../../src/adapters/crypto/clinicKeys.ts'
import { createJoinCrypto } from '../../src/adapters/crypto/joinCrypto.ts'
import { createMemorySecretRows } from '../../src/adapters/crypto/secretRows.ts'
import { createSecretStore } from '../../src/adapters/crypto/secretStore.ts'
import { toHex } from '../../src/adapters/crypto/hex.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import type { MemoryClinic } from '../../src/adapters/hub/memory/memoryClinic.ts'
import { createSystemClock } from '../../src/adapters/time/systemClock.ts'
import { createDeskActs, foundClinic, publishFirst } from '../../src/app/hub/deskActs.ts'
import { createDeskJoin } from '../../src/app/hub/join/deskJoin.ts'
import { joinClinic, type JoinClinicDeps } from '../../src/app/hub/join/joinClinic.ts'
import { createRosterBook } from '../../src/app/hub/rosterBook.ts'
import type { Membership } from '../../src/core/hub/membership.ts'
import type { Hub } from '../../src/ports/hub.ts'
import type { HubRights } from '../../src/ports/hubRights.ts'
import { quickKey, quickVault } from './vaults.ts'

export const joinClock = createSystemClock('boot')
export const SOON = { timeout: 10_000, interval: 10 }
let lots = 0

/** Passes that no server looks at; who was cut off is known. */
function paperRights(): HubRights & { readonly gone: string[]; trouble?: Error } {
  const rights: HubRights & { readonly gone: string[]; trouble?: Error } = {
    gone: [],
    newPass: async () => ({ passKey: `UPAPERPAPERPAPERPAPER${(lots += 1)}`, seed: `S${lots}` }),
    sign: async (desk, holder) => `${desk}/${JSON.stringify(holder)}`,
    cutOff: async (_desk, keys) => {
      if (rights.trouble) throw rights.trouble
      rights.gone.push(...keys)
    },
    clinicOf: (desk) => (desk === 'desk of c1' ? 'c1' : undefined),
  }
  return rights
}

/** The keys of one browser. */
export async function joinDevice() {
  const keys = createClinicKeys(createSecretStore(createMemorySecretRows(), quickVault()))
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, [
    'sign',
    'verify',
  ])
  const signingKey = toHex(await crypto.subtle.exportKey('spki', pair.publicKey))
  const sign = async (text: string): Promise<string> => {
    const bytes = new TextEncoder().encode(text)
    return toHex(
      await crypto.subtle.sign({ name: 'ECDSA', hash: 'SHA-256' }, pair.privateKey, bytes),
    )
  }
  return { keys, signingKey, sign }
}
export type JoinDevice = Awaited<ReturnType<typeof joinDevice>>

export async function upHub(hub: Hub): Promise<Hub> {
  hub.start()
  await vi.waitFor(() => expect(hub.state().kind).toBe('connected'), SOON)
  return hub
}

/** A device of the clinic that follows the roster. */
export function following(hub: Hub, { device, roster }: Membership, of: JoinDevice) {
  const kept: string[] = []
  const book = createRosterBook(roster, {
    hub,
    device,
    keys: of.keys,
    sign: of.sign,
    verify: verifySignature,
    keep: async (signed) => void kept.push(String(signed.roster.edition)),
  })
  return { book, kept, stop: book.start() }
}

/** A desk that has founded the clinic and may let others in. */
export async function foundedDesk(server: MemoryClinic, rights = paperRights()) {
  const of = await joinDevice()
  const first = {
    clinic: 'c1',
    deskFile: 'desk of c1',
    name: 'Desk',
    device: 'D-desk',
    signingKey: of.signingKey,
    now_ms: 1_000,
  }
  const membership = await foundClinic(first, { keys: of.keys, rights, sign: of.sign })
  const hub = await upHub(server.join('D-desk'))
  if (!(await publishFirst(hub, membership))) throw new Error('Founded twice')
  const { book } = following(hub, membership, of)
  const acts = createDeskActs({
    hub,
    book,
    keys: of.keys,
    rights,
    deskFile: async () => 'desk of c1',
    device: 'D-desk',
    newId: () => `D-${(lots += 1)}`,
  })
  const desk = createDeskJoin({
    hub,
    clock: joinClock,
    crypto: createJoinCrypto(quickKey),
    acts,
    clinic: 'c1',
    deskKey: () => of.keys.identity(),
    keyName: (key) => key.slice(-8),
  })
  return { of, hub, book, acts, desk, rights, membership }
}

/** A device with a joining pass; gives what comes of it. */
export async function joining(
  server: MemoryClinic,
  typed: string,
  name: string,
  changes: Partial<JoinClinicDeps> = {},
  of?: JoinDevice,
) {
  const device = of ?? (await joinDevice())
  const hub = changes.hub ?? (await upHub(server.join(`J-${(lots += 1)}`, { pass: 'joining' })))
  const outcome = joinClinic(typed, name, {
    hub,
    clinic: 'c1',
    clock: joinClock,
    crypto: createJoinCrypto(quickKey),
    keys: device.keys,
    rights: paperRights(),
    signingKey: async () => device.signingKey,
    verify: verifySignature,
    poll_ms: 20,
    ...changes,
  })
  return { device, outcome }
}
