import { describe, expect, it, vi } from 'vitest'
import { createClinicKeys } from '../../../src/adapters/crypto/clinicKeys.ts'
import { verifySignature } from '../../../src/adapters/crypto/verifySignature.ts'
import { createMemoryDayStore } from '../../../src/adapters/storage/dayStore.ts'
import { createMemoryHubStore } from '../../../src/adapters/storage/hubStore.ts'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { openMember, type MemberDeps } from '../../../src/app/hub/openMember.ts'
import { drawLogName } from '../../../src/core/hub/logNames.ts'
import { readMembership } from '../../../src/core/hub/membership.ts'
import { StorageError } from '../../../src/ports/storageFault.ts'
import { joinClock, joinDevice, SOON, upHub } from '../../support/joinRig.ts'
import { logOf, SAMPLE_DRAW_ID, sha256, straightLines } from '../../support/sampleLog.ts'
import { founded, idOf, letIn, type SetupPage, type SetupRig } from '../../support/setupRig.ts'

const PIN = '482913'

/** What the app opens a member with, on what that page keeps. */
function depsOf({ server }: SetupRig, { of }: SetupPage, change: Partial<MemberDeps> = {}) {
  const passes: (() => { readonly jwt: string })[] = []
  const deps: MemberDeps = {
    clinic: 'c1',
    keys: createClinicKeys(of.secrets),
    secrets: of.secrets,
    deviceKey: of.deviceKey,
    hubWith: (device, pass) => {
      passes.push(pass)
      return server.join(device)
    },
    hubStore: createMemoryHubStore(),
    clock: joinClock,
    sha256,
    logStore: createMemoryLogStore(sha256),
    dayStore: createMemoryDayStore(sha256),
    verify: verifySignature,
    turn: { isOurs: () => true, ask: () => undefined },
    ...change,
  }
  return { deps, passes }
}

/** A clinic whose desk has gone home: what it kept is opened anew. */
async function kept(change: Partial<MemberDeps> = {}) {
  const rig = await founded()
  await rig.desk.close()
  return { ...rig, ...depsOf(rig, rig.desk, change) }
}

async function opened(deps: MemberDeps) {
  const member = await openMember(deps)
  if (member.kind !== 'open') throw new Error(member.kind)
  return member
}
const drawNow = () => logOf(straightLines(), Date.now() - 3_600_000).entries
const atHub = async (rig: SetupRig, log: string): Promise<number> => {
  const reader = await upHub(rig.server.join('reader'))
  const all = await reader.read({ log }, 0)
  await reader.stop()
  return all.length
}

describe('a device that has joined its clinic', () => {
  it('is opened from what it kept, connects under its own name and sends what it has', async () => {
    const rig = await kept()
    const entries = drawNow()
    await rig.deps.logStore.append(SAMPLE_DRAW_ID, entries)
    const { clinic, member } = await opened(rig.deps)
    expect([member.clinic, member.device]).toEqual(['c1', idOf(rig.desk)])
    await clinic.start()
    await vi.waitFor(
      () => expect(clinic.view()).toMatchObject({ link: 'connected', waiting_n: 0 }),
      SOON,
    )
    await vi.waitFor(async () => {
      expect(await atHub(rig, drawLogName(SAMPLE_DRAW_ID))).toBe(entries.length)
    }, SOON)
    await member.hub.stop()
  })

  it('shows at each connection the pass that it keeps by then', async () => {
    const rig = await kept()
    const { member } = await opened(rig.deps)
    const [shown] = rig.passes
    const before = shown?.().jwt
    await member.keepPass('the next one')
    expect([before === 'the next one', shown?.().jwt]).toEqual([false, 'the next one'])
    expect(member.pass().jwt).toBe('the next one')
    // And so does the page after this one.
    const again = await opened(rig.deps)
    expect(again.member.pass().jwt).toBe('the next one')
  })

  it('takes who was let in from the hub, keeps it, and then trusts what that device wrote', async () => {
    const rig = await founded()
    const { deps } = depsOf(rig, rig.desk)
    const { clinic, member } = await opened(deps)
    await clinic.start()
    const chair = await letIn(rig.desk, await rig.page(), 'Chair 2')
    await vi.waitFor(() => expect(member.book.roster().edition).toBe(2), SOON)
    await vi.waitFor(async () => {
      const text = (await rig.desk.of.secrets.read('pass')) ?? ''
      expect(readMembership(text)?.roster.roster.edition).toBe(2)
    }, SOON)

    const other = depsOf(rig, chair)
    await other.deps.logStore.append(SAMPLE_DRAW_ID, drawNow())
    const there = await opened(other.deps)
    await there.clinic.start()
    await vi.waitFor(() => {
      expect(clinic.draws().map(({ drawId, deviceName }) => [drawId, deviceName])).toEqual([
        [SAMPLE_DRAW_ID, 'Chair 2'],
      ])
    }, SOON)
    await Promise.all([there.member.hub.stop(), member.hub.stop()])
  })

  it('sends nothing under a key that stands in while the disk hangs: nobody could ever check it', async () => {
    const rig = await kept()
    const standIn = await joinDevice()
    const deviceKey = {
      identity: async () => ({ publicKey: standIn.signingKey, keyId: 'other' }),
      sign: standIn.sign,
    }
    const entries = drawNow()
    await rig.deps.logStore.append(SAMPLE_DRAW_ID, entries)
    const { clinic, member } = await opened({ ...rig.deps, deviceKey })
    await clinic.start()
    await vi.waitFor(
      () =>
        expect(clinic.view()).toMatchObject({
          ...{ link: 'connected', waiting_n: entries.length, faults: ['unknown'] },
        }),
      SOON,
    )
    expect(await atHub(rig, drawLogName(SAMPLE_DRAW_ID))).toBe(0)
    await member.hub.stop()
  })
})

describe('a device whose membership cannot be read', () => {
  it('is locked while the PIN keeps it, and open when it was given', async () => {
    const { desk, deps } = await kept()
    await desk.of.vault.setUp(PIN)
    await desk.of.secrets.reseal()
    desk.of.vault.lock()
    expect(await openMember(deps)).toEqual({ kind: 'locked' })
    await desk.of.vault.open(PIN)
    expect((await openMember(deps)).kind).toBe('open')
  })

  const readsAs =
    (text: () => Promise<string | undefined>) => async (rig: { readonly deps: MemberDeps }) =>
      openMember({ ...rig.deps, secrets: { ...rig.deps.secrets, read: text } })

  it.each([
    ['nothing is kept', async () => undefined],
    ['something else is kept', async () => '{"version":1}'],
    [
      'what is kept does not open any more',
      async () => Promise.reject(new StorageError('damaged', 'Another key.')),
    ],
  ])('has to join again where %s', async (_, read) => {
    expect(await readsAs(read)(await kept())).toEqual({ kind: 'lost' })
  })

  it('has to join again where the site names another clinic', async () => {
    const { deps } = await kept({ clinic: 'c2' })
    expect(await openMember(deps)).toEqual({ kind: 'lost' })
  })

  it('is told of a disk that hangs, which may answer later', async () => {
    const hangs = readsAs(async () => Promise.reject(new StorageError('hanging', 'No answer.')))
    await expect(hangs(await kept())).rejects.toMatchObject({ fault: 'hanging' })
  })
})
