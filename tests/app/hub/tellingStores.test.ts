import { describe, expect, it, vi } from 'vitest'
import { drawLogName } from '../../../src/core/hub/logNames.ts'
import { atHub, twoChairs, type Chair } from '../../support/twoChairs.ts'

/** How many entries of that draw a device keeps as the hub gave them. */
const keptOf = async ({ device }: Chair, drawId: string): Promise<number> =>
  (await device.hubStore.entries()).filter(({ entry }) => entry.log === drawLogName(drawId)).length

describe('a record that is erased on a device of a clinic', () => {
  it('leaves nothing there, stays whole at the hub and for the others, and does not come back', async () => {
    const { a, b } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('closed')
    await a.pass(6)
    const { entries } = await a.stored(drawId)
    expect(await keptOf(a, drawId)).toBe(entries.length)
    await a.actions.eraseRecord(drawId)
    await a.pass(8)
    expect(await a.device.logStore.load(drawId)).toBeUndefined()
    expect(await keptOf(a, drawId)).toBe(0)
    expect(a.state().draws).toEqual([])
    expect(a.state().clinic).toMatchObject({ link: 'connected', waiting_n: 0, aside: [] })

    expect(await atHub(b, drawId)).toMatchObject({ ok: true, value: { entries } })
    expect(b.device.clinic.load(drawId)?.entries).toEqual(entries)
    expect(b.state().others.map((draw) => draw.drawId)).toEqual([drawId])
    // And it goes on with others.
    await a.actions.go({ name: 'home' })
    const next = await a.begin()
    await a.follow('closed')
    await a.pass(6)
    expect(await atHub(b, next)).toMatchObject({ ok: true })
  })

  it('keeps nothing of it that comes later, nor when the hub comes back with an old disk and gives all again', async () => {
    const { a, b, hub } = await twoChairs()
    const drawId = await a.begin()
    hub.setLag(60_000)
    await a.follow('closed')
    await a.pass(6)
    const { entries } = await a.stored(drawId)
    await a.actions.eraseRecord(drawId)
    hub.setLag(0)
    await a.pass(70)
    expect(await keptOf(a, drawId)).toBe(0)
    const old = hub.copy()
    await a.begin()
    await a.pass(5)
    hub.restore(old)
    await a.pass(8)
    expect(await keptOf(a, drawId)).toBe(0)
    expect(await a.device.logStore.load(drawId)).toBeUndefined()
    expect(a.state().others).toEqual([])
    expect(b.device.clinic.load(drawId)?.entries).toEqual(entries)
  })

  it('where the disk does not erase it now, erases it with the next that it takes', async () => {
    const { a } = await twoChairs()
    const drawId = await a.begin()
    await a.follow('closed')
    await a.pass(6)
    const { hubStore } = a.device
    const erase = vi.spyOn(hubStore, 'eraseLog').mockRejectedValueOnce(new Error('full'))
    await a.actions.eraseRecord(drawId)
    expect(await keptOf(a, drawId)).toBeGreaterThan(0)
    await a.actions.go({ name: 'home' })
    await a.begin()
    await a.pass(6)
    expect(erase).toHaveBeenCalledTimes(2)
    expect(await keptOf(a, drawId)).toBe(0)
  })
})
