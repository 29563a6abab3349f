import { describe, expect, it } from 'vitest'
import { createMemoryClinic } from '../../../../src/adapters/hub/memory/memoryClinic.ts'
import { createSystemClock } from '../../../../src/adapters/time/systemClock.ts'
import { hubContract } from '../../../contract/hub.contract.ts'
import { bytesOf as bytes, connected, PATIENCE_ms } from '../../../support/hubRig.ts'

const clock = createSystemClock('boot')

hubContract('memory', async () => {
  const clinic = createMemoryClinic(clock)
  return {
    join: async (device) => clinic.join(device, { patience_ms: PATIENCE_ms }),
    down: async () => clinic.setUp(false),
    up: async () => clinic.setUp(true),
    freeze: async () => clinic.setHanging(true),
    thaw: async () => clinic.setHanging(false),
    copy: async () => {
      const copy = clinic.copy()
      return async () => clinic.restore(copy)
    },
    end: async () => undefined,
  }
})

describe('the faults of a clinic in memory', () => {
  it('loses an answer: what was asked is done', async () => {
    const clinic = createMemoryClinic(clock)
    const hub = await connected(clinic.join('A1'))
    clinic.loseAnswers(2)
    expect(await hub.append('draw-1', 'entry', bytes('a'), 0)).toMatchObject({ kind: 'stored' })
    const lost = hub.append('draw-1', 'entry', bytes('b'), 1)
    await expect(lost).rejects.toMatchObject({ fault: 'unreachable' })
    clinic.loseAnswers(0)
    expect(await hub.append('draw-1', 'entry', bytes('b'), 1)).toMatchObject({
      kind: 'stale',
      next: { sequence: 2 },
    })
  })

  it('tells others later, and the writer at once', async () => {
    const clinic = createMemoryClinic(clock)
    const hub = await connected(clinic.join('A1'))
    clinic.setLag(80)
    const heard = new Promise<number>((resolve) => {
      hub.watch({}, { sequence: 0, at_ms: 0 }, { entry: () => resolve(performance.now()) })
    })
    const since_ms = performance.now()
    await hub.append('draw-1', 'entry', bytes('a'), 0)
    expect(await hub.last('draw-1')).toBeDefined()
    expect((await heard) - since_ms).toBeGreaterThan(40)
  })

  it('cuts one device off, the others stay; a joining pass may only ask', async () => {
    const clinic = createMemoryClinic(clock)
    const [a, b] = [await connected(clinic.join('A1')), await connected(clinic.join('B2'))]
    clinic.refuse('A1', 'revoked')
    expect(a.state()).toMatchObject({ kind: 'refused', why: 'revoked' })
    await expect(a.last('draw-1')).rejects.toMatchObject({ fault: 'unreachable' })
    expect(await b.last('draw-1')).toBeUndefined()
    clinic.refuse('A1', undefined)
    expect(a.state().kind).toBe('connected')
    const stranger = await connected(clinic.join('new', { pass: 'joining' }))
    await expect(stranger.read({}, 0)).rejects.toMatchObject({ fault: 'refused' })
    b.onAsk(async () => bytes('come in'))
    expect(await stranger.ask(bytes('?'))).toEqual(bytes('come in'))
  })
})
