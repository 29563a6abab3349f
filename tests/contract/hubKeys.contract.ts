import { expect, it, vi } from 'vitest'
import { HUB_START } from '../../src/core/hub/hubEntry.ts'
import type { KeyValue } from '../../src/ports/hub.ts'
import { bytesOf, SOON, text, type ContractRig } from '../support/hubRig.ts'

/** What every hub must do with the values that devices share. */
export function hubKeysContract(rig: ContractRig): void {
  it('writes over a value only for who knows it', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    expect(await a.keys.get('claim/L1')).toBeUndefined()
    const put = await a.keys.put('claim/L1', bytesOf('A1'), 0)
    if (put.kind !== 'stored') throw new Error('refused')
    const now = await b.keys.get('claim/L1')
    expect(now).toMatchObject({ key: 'claim/L1', revision: put.revision })
    expect(text(now!.bytes)).toBe('A1')
    expect(await b.keys.put('claim/L1', bytesOf('B2'), 0)).toEqual({ kind: 'stale', now })
    expect(await b.keys.put('claim/L2', bytesOf('B2'), 99)).toEqual({ kind: 'stale' })
    expect(await b.keys.put('claim/L1', bytesOf('B2'), put.revision)).toMatchObject({
      kind: 'stored',
    })
    expect(text((await a.keys.get('claim/L1'))!.bytes)).toBe('B2')
    for (const key of ['claim', '', 'claim/', '/L1', 'a/b/c/d/e']) {
      await expect(a.keys.get(key)).rejects.toMatchObject({ fault: 'badName' })
      await expect(a.keys.put(key, bytesOf('x'), 0)).rejects.toMatchObject({ fault: 'badName' })
    }
  })

  it('gives an order to one of two devices that claim it at one time', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    for (let order = 0; order < 10; order++) {
      const key = `claim/Order ${order}.x`
      const both = await Promise.all([
        a.keys.put(key, bytesOf('A1'), 0),
        b.keys.put(key, bytesOf('B2'), 0),
      ])
      expect(both.map(({ kind }) => kind).sort()).toEqual(['stale', 'stored'])
      const winner = both[0].kind === 'stored' ? 'A1' : 'B2'
      expect(text((await a.keys.get(key))!.bytes)).toBe(winner)
    }
  })

  it('tells who watches values of all there are, then of each change', async () => {
    const [a, b] = [await rig.join('A1'), await rig.join('B2')]
    await a.keys.put('claim/L1', bytesOf('A1'), 0)
    await a.keys.put('site/limits', bytesOf('1'), 0)
    const seen = new Map<string, KeyValue>()
    let alls = 0
    const stop = b.keys.watch(
      'claim',
      (value) => seen.set(value.key, value),
      () => (alls += 1),
    )
    await vi.waitFor(() => expect(alls).toBe(1), SOON)
    expect([...seen.keys()]).toEqual(['claim/L1'])
    await a.keys.put('claim/L 2', bytesOf('A1'), 0)
    await a.keys.put('claim/L1', bytesOf('free'), seen.get('claim/L1')!.revision)
    await vi.waitFor(() => {
      expect([...seen].map(([key, { bytes }]) => `${key}: ${text(bytes)}`).sort()).toEqual([
        'claim/L 2: A1',
        'claim/L1: free',
      ])
    }, SOON)
    await rig.clinic().down()
    await vi.waitFor(() => expect(b.state().kind).toBe('alone'), SOON)
    seen.clear()
    await rig.clinic().up()
    await vi.waitFor(() => expect([...seen.keys()].sort()).toEqual(['claim/L 2', 'claim/L1']), SOON)
    stop()
  })

  it('has the end of nothing to tell where nothing is there', async () => {
    const a = await rig.join('A1')
    const told = { entries: 0, values: 0 }
    a.watch({}, HUB_START, { entry: () => undefined, caughtUp: () => (told.entries += 1) })
    a.keys.watch(
      'claim',
      () => undefined,
      () => (told.values += 1),
    )
    await vi.waitFor(() => expect(told).toEqual({ entries: 1, values: 1 }), SOON)
  })
}
