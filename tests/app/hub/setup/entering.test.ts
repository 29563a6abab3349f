import { describe, expect, it } from 'vitest'
import { createMemoryHubStore } from '../../../../src/adapters/storage/hubStore.ts'
import { createMemorySettingsStore } from '../../../../src/adapters/storage/memory.ts'
import { createEntering } from '../../../../src/app/hub/setup/entering.ts'
import { HUB_JOINING_KEY, HUB_SITE_KEY } from '../../../../src/app/hub/setup/findHub.ts'
import { keepSharedSite, readSharedSite } from '../../../../src/app/hub/setup/sharedSite.ts'
import { readHubSite } from '../../../../src/core/hub/hubSite.ts'
import {
  membershipText,
  readMembership,
  type Membership,
} from '../../../../src/core/hub/membership.ts'
import { StorageError } from '../../../../src/ports/storageFault.ts'
import { sampleDevice, sampleRoster, unsignedSample } from '../../../support/sampleRoster.ts'

const site = { clinic: 'c1', servers: ['wss://hub.example:9222'], joiningJwt: 'j.j.j' }

const memberOf = (clinic: string, device: string): Membership => {
  const devices = [sampleDevice(1), sampleDevice(2), sampleDevice(3)]
  const roster = unsignedSample({ ...sampleRoster(devices), clinic })
  return { clinic, device, pass: { jwt: 'a.b.c', seed: 'SU' }, roster }
}
const SHARED = { what: 'policy', edition: 3, by: 'D1' } as const

/** A device with what it has read of a clinic and what desks gave it there. */
async function device(before?: Membership) {
  const settingsStore = createMemorySettingsStore()
  const hubStore = createMemoryHubStore()
  await hubStore.add(0, [
    {
      ...{ sequence: 7, log: 'draw.AA22-1', device: 'D1', kind: 'entry', behind: 0, at_ms: 5 },
      bytes: new Uint8Array(1),
    },
  ])
  await keepSharedSite(settingsStore, { clinic: 'c1', parts: [SHARED] })
  let pass = before && membershipText(before)
  let fault: Error | undefined
  const done: string[] = []
  const entering = createEntering({
    site,
    secrets: {
      read: async () => pass,
      update: async (_, change) => {
        if (fault) throw fault
        return (pass = (await change(pass)) ?? pass)
      },
    },
    keys: { forget: async () => void done.push('keys forgotten') },
    hubStore,
    settingsStore,
    tellOthers: () => void done.push('told'),
    startAnew: () => void done.push('anew'),
  })
  return {
    ...{ entering, done, settingsStore },
    member: () => (pass === undefined ? undefined : readMembership(pass)),
    fail: (error: Error) => (fault = error),
    siteKept: async () => {
      const text = await settingsStore.read(HUB_SITE_KEY)
      const read = text ? readHubSite(text) : undefined
      return read?.ok ? read.value : undefined
    },
    known: async () => ({
      read_n: (await hubStore.entries()).length,
      shared_n: (await readSharedSite(settingsStore))?.parts.length ?? 0,
    }),
  }
}

describe('entering a clinic', () => {
  it('keeps who this device is and where its hub stands, and begins anew', async () => {
    const { entering, member, siteKept, done } = await device()
    await entering.enter(memberOf('c1', 'D2'))
    expect(member()).toEqual(memberOf('c1', 'D2'))
    expect(await siteKept()).toEqual(site)
    expect(done).toEqual(['told', 'anew'])
  })

  it('names each joining anew, so that a page of the one before is known', async () => {
    const { entering, settingsStore } = await device()
    const names = new Set<string | undefined>()
    for (const jwt of ['a.b.first', 'a.b.second']) {
      const member = memberOf('c1', 'D2')
      await entering.enter({ ...member, pass: { ...member.pass, jwt } })
      names.add(await settingsStore.read(HUB_JOINING_KEY))
    }
    expect([names.size, names.has(undefined)]).toEqual([2, false])
  })

  it('again as the same device keeps what was read', async () => {
    const { entering, known } = await device(memberOf('c1', 'D2'))
    await entering.enter(memberOf('c1', 'D2'))
    expect(await known()).toEqual({ read_n: 1, shared_n: 1 })
  })

  it.each([
    ['for the first time', undefined, memberOf('c1', 'D2')],
    ['under another name', memberOf('c1', 'D2'), memberOf('c1', 'D3')],
    ['after another clinic', memberOf('c2', 'D2'), memberOf('c1', 'D2')],
  ])('%s knows nothing of before', async (_, before, now) => {
    const { entering, known, member } = await device(before)
    await entering.enter(now)
    expect(await known()).toEqual({ read_n: 0, shared_n: 0 })
    expect(member()?.device).toBe(now.device)
  })

  it('that cannot be kept leaves a device that belongs to none and is not loaded anew', async () => {
    const { entering, fail, member, siteKept, done } = await device()
    fail(new StorageError('locked', 'The vault is locked.'))
    await expect(entering.enter(memberOf('c1', 'D2'))).rejects.toMatchObject({ fault: 'locked' })
    expect([member(), await siteKept(), done]).toEqual([undefined, undefined, []])
  })
})

describe('leaving a clinic', () => {
  it('forgets its hub, what was read, what desks gave and the keys; then begins anew', async () => {
    const { entering, known, siteKept, done } = await device(memberOf('c1', 'D2'))
    await entering.enter(memberOf('c1', 'D2'))
    await entering.leave()
    expect(await siteKept()).toBeUndefined()
    expect(await known()).toEqual({ read_n: 0, shared_n: 0 })
    expect(done).toEqual(['told', 'anew', 'told', 'keys forgotten', 'anew'])
  })
})
