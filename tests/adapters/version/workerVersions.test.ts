import { describe, expect, it, vi } from 'vitest'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import type { BusyLock } from '../../../src/adapters/version/busyLock.ts'
import {
  BEGIN_ms,
  createWorkerVersions,
  LOOK_ms,
} from '../../../src/adapters/version/workerVersions.ts'
import type { VersionState } from '../../../src/ports/versions.ts'

/** A service worker as far as the app sees one (W3C Service Workers, from memory; Chromium's is tested beside it). */
class Worker extends EventTarget {
  readonly told: unknown[] = []
  postMessage(message: unknown): void {
    this.told.push(message)
  }
}
class Registration extends EventTarget {
  active: Worker | null = null
  waiting: Worker | null = null
  installing: Worker | null = null
  readonly update = vi.fn(() => Promise.resolve())
}
class Container extends EventTarget {
  readonly registration = new Registration()
  controller: Worker | null = null
  readonly register = vi.fn(() => Promise.resolve(this.registration))
}

const settle = async (): Promise<void> => {
  for (let i = 0; i < 20; i++) await Promise.resolve()
}

async function setUp(before: { readonly isFirstVisit?: boolean; readonly waits?: boolean } = {}) {
  const container = new Container()
  const { registration } = container
  const old = new Worker()
  if (!before.isFirstVisit) {
    registration.active = old
    container.controller = old
  }
  if (before.waits) registration.waiting = new Worker()
  const clock = createSimulatedClock({ wall_ms: 0, mono_ms: 0, boot: 'a', offset_min: 0 })
  let othersAreBusy = false
  const busy: BusyLock = {
    setBusy: vi.fn(),
    whileNoneIs: (work) => (othersAreBusy ? Promise.resolve(undefined) : work()),
  }
  const keepOld = vi.fn(() => Promise.resolve())
  const versions = createWorkerVersions({
    clock,
    workers: container as unknown as ServiceWorkerContainer,
    script: '/sw.js',
    busy,
    keepOld,
  })
  const states: VersionState[] = []
  versions.onState((state) => states.push(state))
  await settle()
  return {
    ...{ container, registration, clock, busy, keepOld, versions, states },
    setOthersBusy: (next: boolean) => void (othersAreBusy = next),
    /** A newer version is fetched and waits, as the browser tells it. */
    arrive(): Worker {
      const worker = new Worker()
      registration.installing = worker
      registration.dispatchEvent(new Event('updatefound'))
      registration.installing = null
      registration.waiting = worker
      worker.dispatchEvent(new Event('statechange'))
      return worker
    },
    /** The service worker that waited answers for the pages from now on. */
    change(): void {
      registration.active = registration.waiting ?? new Worker()
      registration.waiting = null
      container.controller = registration.active
      container.dispatchEvent(new Event('controllerchange'))
    },
  }
}

describe('a newer version', () => {
  it('is told when it waits already, and when it comes later', async () => {
    expect((await setUp({ waits: true })).states).toEqual(['current', 'waiting'])
    const rig = await setUp()
    expect(rig.states).toEqual(['current'])
    rig.arrive()
    expect(rig.states).toEqual(['current', 'waiting'])
  })

  it('is not what the first visit brings', async () => {
    const rig = await setUp({ isFirstVisit: true })
    rig.arrive()
    rig.change()
    expect(rig.states).toEqual(['current'])
    expect(await rig.versions.take()).toBe('failed')
  })

  it('begins when it is taken, after the old files are kept', async () => {
    const rig = await setUp()
    const worker = rig.arrive()
    const outcome = rig.versions.take()
    await settle()
    expect(worker.told).toEqual([{ type: 'SKIP_WAITING' }])
    expect(rig.keepOld).toHaveBeenCalledTimes(1)
    rig.change()
    expect(await outcome).toBe('taken')
    // The page that took it begins anew by itself; it is not told of another page.
    expect(rig.states).toEqual(['current', 'waiting'])
  })

  it('is told to the other pages once one has taken it', async () => {
    const rig = await setUp()
    rig.arrive()
    rig.change()
    expect(rig.states).toEqual(['current', 'waiting', 'taken'])
    expect(await rig.versions.take()).toBe('taken')
  })

  it('is not taken while this page or another one is busy', async () => {
    const rig = await setUp()
    const worker = rig.arrive()
    rig.versions.setBusy(true)
    expect(await rig.versions.take()).toBe('busy')
    rig.versions.setBusy(false)
    rig.setOthersBusy(true)
    expect(await rig.versions.take()).toBe('busy')
    expect(worker.told).toEqual([])
  })

  it('that does not begin is told as failed, and may be taken again', async () => {
    const rig = await setUp()
    const worker = rig.arrive()
    const outcome = rig.versions.take()
    await settle()
    rig.clock.advance(BEGIN_ms)
    expect(await outcome).toBe('failed')
    void rig.versions.take()
    await settle()
    expect(worker.told).toHaveLength(2)
  })

  it('is looked for every hour on a page that is never closed, but not during a draw', async () => {
    const { registration, clock, versions } = await setUp()
    clock.advance(LOOK_ms)
    expect(registration.update).toHaveBeenCalledTimes(1)
    versions.setBusy(true)
    clock.advance(LOOK_ms)
    expect(registration.update).toHaveBeenCalledTimes(1)
    versions.setBusy(false)
    clock.advance(LOOK_ms)
    expect(registration.update).toHaveBeenCalledTimes(2)
  })
})
