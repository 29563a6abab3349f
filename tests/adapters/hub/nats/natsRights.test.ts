import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { createJoinCrypto } from '../../../../src/adapters/crypto/joinCrypto.ts'
import { createMemoryClinic } from '../../../../src/adapters/hub/memory/memoryClinic.ts'
import { createNatsRights } from '../../../../src/adapters/hub/nats/natsRights.ts'
import { JOINING } from '../../../../src/adapters/hub/nats/rights.ts'
import { createDeskActs, foundClinic, publishFirst } from '../../../../src/app/hub/deskActs.ts'
import { createDeskJoin } from '../../../../src/app/hub/join/deskJoin.ts'
import type { Hub } from '../../../../src/ports/hub.ts'
import { CLOSED_CLINIC, closedHub, type ClosedHub } from '../../../support/closedHub.ts'
import { bytesOf, connected } from '../../../support/hubRig.ts'
import { following, joinClock, joinDevice, joining, SOON } from '../../../support/joinRig.ts'
import { NATS_SERVER } from '../../../support/natsProcess.ts'
import { quickKey } from '../../../support/vaults.ts'

const clinic = CLOSED_CLINIC
/** The hub is given: nothing is asked of one in memory. */
const noServer = createMemoryClinic(joinClock)

describe.skipIf(!NATS_SERVER)('a clinic at a real hub, with the passes of its desk file', () => {
  let closed: ClosedHub
  const hubs: Hub[] = []
  const hubOf = (name: string, pass: { jwt: string; seed: string }): Hub => {
    const hub = closed.hub(name, pass)
    hubs.push(hub)
    return hub
  }
  beforeAll(async () => {
    closed = await closedHub()
  }, 120_000)
  afterAll(async () => {
    await Promise.all(hubs.map((hub) => hub.stop()))
    await closed.server.remove()
  }, 60_000)

  it('is founded once, lets two chairs in by a code, and cuts one off while the other goes on', async () => {
    const { keys } = closed
    const deskFile = JSON.stringify({
      clinic,
      signing: keys.signing,
      cutOff: { account: keys.account, operatorSeed: keys.operatorSeed, system: keys.system },
    })
    const rights = createNatsRights({
      clock: joinClock,
      dial: (pass) => closed.open('system', pass),
    })
    expect(rights.clinicOf(deskFile)).toBe(clinic)
    const of = await joinDevice()
    const first = {
      ...{ clinic, deskFile, name: 'Desk', device: 'D-desk' },
      ...{ signingKey: of.signingKey, now_ms: Date.now() },
    }
    const parts = { keys: of.keys, rights, sign: of.sign }
    const membership = await foundClinic(first, parts)
    const hub = await connected(hubOf('D-desk', membership.pass))
    expect(await publishFirst(hub, membership)).toBe(true)
    const second = await joinDevice()
    const rival = await foundClinic(
      { ...first, signingKey: second.signingKey },
      { ...parts, keys: second.keys, sign: second.sign },
    )
    expect(await publishFirst(hub, rival)).toBe(false)

    const { book } = following(hub, membership, of)
    let ids = 0
    const acts = createDeskActs({
      ...{ hub, book, keys: of.keys, rights, device: 'D-desk' },
      deskFile: async () => deskFile,
      newId: () => `D-${(ids += 1)}`,
    })
    const desk = createDeskJoin({
      ...{ hub, clock: joinClock, crypto: createJoinCrypto(quickKey), acts, clinic },
      deskKey: () => of.keys.identity(),
      keyName: (key) => key.slice(-8),
    })
    const chairs = []
    for (const name of ['Chair 2', 'Chair 3']) {
      desk.invite()
      const asking = await connected(
        hubOf(JOINING, {
          jwt: keys.joiningJwt,
          seed: (await rights.newPass()).seed,
        }),
      )
      // With that pass nothing can be read or written.
      await expect(asking.read({}, 0)).rejects.toMatchObject({
        fault: expect.any(String) as string,
      })
      const { device, outcome } = await joining(noServer, desk.view()?.code ?? '', name, {
        ...{ hub: asking, clinic, rights },
      })
      await vi.waitFor(() => expect(desk.view()?.asking?.name).toBe(name), SOON)
      await desk.admit()
      const end = await outcome
      if (end.kind !== 'joined') throw new Error(end.why)
      await asking.stop()
      const own = await connected(hubOf(end.membership.device, end.membership.pass))
      chairs.push({
        hub: own,
        of: device,
        ...end.membership,
        ...following(own, end.membership, device),
      })
    }
    const [gone, stays] = chairs
    if (!gone || !stays) throw new Error('Two chairs')
    expect(await gone.hub.append('draw-1', 'entry', bytesOf('a'), 0)).toMatchObject({
      kind: 'stored',
    })
    // A chair may not change who belongs to the clinic.
    await expect(
      gone.hub.keys.put(`site/roster/${book.roster().edition + 1}`, bytesOf('{}'), 0),
    ).rejects.toMatchObject({ fault: 'refused' })

    await acts.revoke(gone.device)
    await vi.waitFor(() => expect(gone.hub.state().kind).toBe('refused'), SOON)
    await expect(gone.hub.append('draw-1', 'entry', bytesOf('b'), 1)).rejects.toThrow()
    await vi.waitFor(() => expect(stays.book.roster().edition).toBe(book.roster().edition), SOON)
    const after = await stays.of.keys.seal('c', 'after')
    expect(await of.keys.open('c', after.key, after.sealed)).toBe('after')
    await expect(gone.of.keys.open('c', after.key, after.sealed)).rejects.toMatchObject({
      fault: 'unknownKey',
    })
    expect(await stays.hub.append('draw-2', 'entry', bytesOf('c'), 0)).toMatchObject({
      kind: 'stored',
    })
    // A new connection with the old pass is refused as well.
    const again = hubOf(gone.device, gone.pass)
    again.start()
    await vi.waitFor(() => expect(again.state().kind).toBe('refused'), SOON)
  }, 120_000)
})

describe('a desk file', () => {
  const rights = createNatsRights({
    clock: joinClock,
    dial: () => Promise.reject(new Error('No network')),
  })
  it.each(['', '{}', '[]', 'null', '{"clinic":"c1"}', '{"clinic":"c1","signing":{},"cutOff":{}}'])(
    'is not %s',
    async (text) => {
      expect(rights.clinicOf(text)).toBeUndefined()
      await expect(rights.cutOff(text, [])).rejects.toThrow()
    },
  )
  it('without a hub cuts nobody off, and says so', async () => {
    const kit = { account: 'A', operatorSeed: 'S', system: { jwt: 'j', seed: 's' } }
    const signing = { clinic: 'c1', account: 'A', signingSeed: 'S' }
    const text = JSON.stringify({ clinic: 'c1', signing, cutOff: kit })
    await expect(rights.cutOff(text, ['U'])).rejects.toMatchObject({ fault: 'unreachable' })
  })
})
