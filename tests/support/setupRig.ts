import { expect, vi } from 'vitest'
import { createClinicKeys } from '../../src/adapters/crypto/clinicKeys.ts'
import { toHex } from '../../src/adapters/crypto/hex.ts'
import { createJoinCrypto } from '../../src/adapters/crypto/joinCrypto.ts'
import { createMemorySecretRows } from '../../src/adapters/crypto/secretRows.ts'
import { createSecretStore } from '../../src/adapters/crypto/secretStore.ts'
import { verifySignature } from '../../src/adapters/crypto/verifySignature.ts'
import {
  createMemoryClinic,
  type MemoryClinic,
} from '../../src/adapters/hub/memory/memoryClinic.ts'
import { createMemorySettingsStore } from '../../src/adapters/storage/memory.ts'
import { createRosterBook } from '../../src/app/hub/rosterBook.ts'
import type { ClinicMember, ClinicSetupDeps } from '../../src/app/hub/setup/clinicSetup.ts'
import type { ClinicSetupView } from '../../src/app/hub/setup/clinicSetupView.ts'
import { createClinicSetup } from '../../src/app/hub/setup/createClinicSetup.ts'
import { createKeptMembership } from '../../src/app/hub/setup/keptMembership.ts'
import { createEmitter } from '../../src/core/basics/emitter.ts'
import { membershipText, readMembership } from '../../src/core/hub/membership.ts'
import type { Hub } from '../../src/ports/hub.ts'
import type { HubRights } from '../../src/ports/hubRights.ts'
import { joinClock, SOON } from './joinRig.ts'
import { sha256 } from './sampleLog.ts'
import { quickKey, quickVault } from './vaults.ts'

const YEAR_ms = 365 * 86_400_000
export const DESK_FILE = 'desk of c1'
let lots = 0

/** Passes that no server looks at: what they hold can be read, and who was cut off is known. */
export function openRights(now_ms: () => number = () => joinClock.read().wall_ms) {
  const rights = {
    gone: [] as string[],
    trouble: undefined as Error | undefined,
    newPass: async () => ({ passKey: `UPAPERPAPERPAPERPAPER${(lots += 1)}`, seed: `S${lots}` }),
    sign: async (desk: string, holder: Parameters<HubRights['sign']>[1]) =>
      JSON.stringify({ desk, ...holder, ends_ms: now_ms() + YEAR_ms }),
    cutOff: async (_desk: string, keys: readonly string[]) => {
      if (rights.trouble) throw rights.trouble
      rights.gone.push(...keys)
    },
    clinicOf: (desk: string) => /^desk of (\w+)$/.exec(desk)?.[1],
  }
  return rights
}

/** What a browser keeps over a reload. */
async function browser() {
  const vault = quickVault()
  await vault.load()
  const secrets = createSecretStore(createMemorySecretRows(), vault)
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, [
    'sign',
    'verify',
  ])
  const publicKey = toHex(await crypto.subtle.exportKey('spki', pair.publicKey))
  const deviceKey = {
    identity: async () => ({ publicKey, keyId: publicKey.slice(-8) }),
    sign: async (text: string) =>
      toHex(
        await crypto.subtle.sign(
          { name: 'ECDSA', hash: 'SHA-256' },
          pair.privateKey,
          new TextEncoder().encode(text),
        ),
      ),
  }
  return { vault, secrets, deviceKey, settingsStore: createMemorySettingsStore() }
}
type Browser = Awaited<ReturnType<typeof browser>>

export interface SetupPage {
  readonly of: Browser
  readonly setup: ReturnType<typeof createClinicSetup>
  readonly member: () => ClinicMember | undefined
  readonly hub: () => Hub
  /** So often the app was loaded anew. */
  readonly reloads: () => number
  /** The page is gone; what it kept stays. */
  close(): Promise<void>
}

/** A page of a device, wired as the app wires it but for the reload, which is only counted. */
async function setupPage(
  server: MemoryClinic,
  of: Browser,
  rights: ReturnType<typeof openRights>,
  change: Partial<ClinicSetupDeps> = {},
): Promise<SetupPage> {
  const { secrets, deviceKey, settingsStore } = of
  const keys = createClinicKeys(secrets)
  const members = createEmitter<void>()
  const stops: (() => void)[] = []
  let member: ClinicMember | undefined
  let reloads = 0

  /** As the app does it at its start. */
  const open = async (): Promise<void> => {
    const text = secrets.isLocked() ? undefined : await secrets.read('pass')
    const membership = text === undefined ? undefined : readMembership(text)
    if (!membership) return
    const kept = createKeptMembership(secrets, membership)
    const { clinic, device } = membership
    const hub = server.join(device)
    const sign = (each: string): Promise<string> => deviceKey.sign(each)
    const book = createRosterBook(membership.roster, {
      ...{ hub, device, keys, sign, verify: verifySignature, keep: kept.keepRoster },
    })
    stops.push(book.start())
    hub.start()
    const pass = () => kept.now().pass
    member = { clinic, device, hub, book, pass, keepPass: kept.keepPass }
    members.emit()
  }
  const setup = createClinicSetup({
    site: { clinic: 'c1', servers: ['wss://hub.example:9222'], joiningJwt: 'j.j.j' },
    clock: joinClock,
    crypto: createJoinCrypto(quickKey),
    ...{ keys, rights, secrets, settingsStore, deviceKey, verify: verifySignature, sha256 },
    hubWith: (device) =>
      server.join(
        device === 'joining' ? `J${(lots += 1)}` : device,
        device === 'joining' ? { pass: 'joining' } : {},
      ),
    member: () => member,
    onMember: members.observe,
    newId: () => `D-${(lots += 1)}`,
    keyName: (key) => key.slice(-8),
    passEnds_ms: (jwt) => {
      try {
        return (JSON.parse(jwt) as { ends_ms?: number }).ends_ms
      } catch {
        return undefined
      }
    },
    enter: async (membership) => {
      await secrets.update('pass', () => membershipText(membership))
      reloads += 1
      await open()
    },
    leave: async () => {
      await member?.hub.stop()
      await keys.forget()
      member = undefined
      reloads += 1
    },
    startAnew: () => void (reloads += 1),
    poll_ms: 20,
    ...change,
  })
  await open()
  return {
    of,
    setup,
    member: () => member,
    hub: () => {
      if (!member) throw new Error('No member')
      return member.hub
    },
    reloads: () => reloads,
    close: async () => {
      stops.forEach((stop) => stop())
      await member?.hub.stop()
    },
  }
}

/** The view as that of a member. */
export function asMember({ setup }: SetupPage): Extract<ClinicSetupView, { kind: 'member' }> {
  const view = setup.view()
  if (view.kind !== 'member') throw new Error(JSON.stringify(view))
  return view
}

export const toldOf = ({ setup }: SetupPage) => {
  const view = setup.view()
  return 'told' in view ? view.told : undefined
}

export const setupRig = async () => {
  const server = createMemoryClinic(joinClock)
  const rights = openRights()
  const page = async (of = browser()) => setupPage(server, await of, rights)
  const desk = await page()
  return { server, rights, page, desk }
}
export type SetupRig = Awaited<ReturnType<typeof setupRig>>

export const founded = async () => {
  const each = await setupRig()
  await each.desk.setup.acts.found(DESK_FILE, 'Front desk')
  expect(asMember(each.desk)).toMatchObject({ isDesk: true })
  await vi.waitFor(() => expect(asMember(each.desk).hasDeskFile).toBe(true), SOON)
  return each
}
/** Opens an invitation and gives its code. */
export const invited = async (desk: SetupPage): Promise<string> => {
  const before = asMember(desk).invitation?.code
  desk.setup.acts.invite()
  await vi.waitFor(() => {
    const now = asMember(desk)
    expect(now.isBusy).toBe(false)
    expect(now.invitation?.isOpen && now.invitation.code !== before).toBe(true)
  }, SOON)
  return asMember(desk).invitation?.code ?? ''
}
export const asked = (desk: SetupPage, name: string) =>
  vi.waitFor(() => expect(asMember(desk).invitation?.asking?.name).toBe(name), SOON)

/** Lets a page in under that name. */
export const letIn = async (desk: SetupPage, page: SetupPage, name: string) => {
  const code = await invited(desk)
  const joined = page.setup.acts.join(code, name)
  await asked(desk, name)
  await desk.setup.acts.admit()
  await joined
  expect(asMember(page).device).toBeTruthy()
  await vi.waitFor(() => expect(page.hub().state().kind).toBe('connected'), SOON)
  return page
}
export const namesOf = (page: SetupPage) => asMember(page).devices.map(({ name }) => name)
export const idOf = (page: SetupPage): string => asMember(page).device
