import { describe, expect, it } from 'vitest'
import { createMemorySettingsStore } from '../../../../src/adapters/storage/memory.ts'
import { createSimulatedClock } from '../../../../src/adapters/time/simulatedClock.ts'
import { noClinic } from '../../../../src/app/hub/clinic.ts'
import type { ClinicSetup } from '../../../../src/app/hub/setup/clinicSetup.ts'
import {
  findHub,
  HUB_JOINING_KEY,
  HUB_SITE_KEY,
  type WiredHub,
} from '../../../../src/app/hub/setup/findHub.ts'
import { hubSiteText, type HubSite } from '../../../../src/core/hub/hubSite.ts'

const SITE: HubSite = { clinic: 'c1', servers: ['wss://hub.example:9222'], joiningJwt: 'j.j.j' }
const MOVED: HubSite = { ...SITE, servers: ['wss://other.example:9222'] }
const OTHER: HubSite = { ...SITE, clinic: 'c2' }

const setup: ClinicSetup = {
  view: () => ({ kind: 'none', clinic: 'c1', isBusy: false }),
  onChange: () => () => undefined,
  acts: {} as ClinicSetup['acts'],
}

interface Situation {
  /** What this device has kept, as text. */
  readonly kept?: string
  /** What the site serves; absent: nothing. */
  readonly served?: string
  /** So often the app's part for a hub does not load. */
  readonly failures?: number
  readonly hangs?: boolean
}

async function rig({ kept, served, failures = 0, hangs = false }: Situation) {
  const clock = createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: 0, offset_min: 0 })
  const settingsStore = createMemorySettingsStore()
  if (kept !== undefined) await settingsStore.write(HUB_SITE_KEY, kept)
  const wired: HubSite[] = []
  let toFail = failures
  let opened = 0
  let stopped = 0
  const found = await findHub({
    clock,
    settingsStore,
    readText: async (path) => {
      if (hangs) return new Promise(() => undefined)
      if (served === undefined || path !== 'hub.json') throw new Error(`${path} is not there.`)
      return served
    },
    wire: async (site): Promise<WiredHub> => {
      if (toFail-- > 0) throw new Error('It did not load.')
      wired.push(site)
      return {
        setup,
        stop: () => void (stopped += 1),
        open: async () => {
          opened += 1
          return { kind: 'open', clinic: noClinic }
        },
      }
    },
  })
  return {
    ...found,
    ...{ wired, clock },
    opened: () => opened,
    stopped: () => stopped,
    /** What another page of this device writes. */
    write: (key: string, text: string) => settingsStore.write(key, text),
    kept: () => settingsStore.read(HUB_SITE_KEY),
  }
}

describe('a device that belongs to no clinic', () => {
  it('whose site has no hub loads nothing of it and has nothing to set up', async () => {
    const { clinic, findSetup, wired } = await rig({})
    expect([clinic, await findSetup(), wired]).toEqual([undefined, undefined, []])
  })

  it('whose site answers every name with a page for people has none either', async () => {
    const { findSetup, wired } = await rig({ served: '<!doctype html><title>Clinic</title>' })
    expect([await findSetup(), wired]).toEqual([undefined, []])
  })

  it('whose site has a hub can join it, and keeps nothing of it before', async () => {
    const { clinic, findSetup, wired, kept } = await rig({ served: hubSiteText(SITE) })
    expect([clinic, await findSetup()]).toEqual([undefined, setup])
    expect([wired, await kept()]).toEqual([[SITE], undefined])
  })

  it.each([
    ['is no JSON', 'hello', 'json'],
    ['is another file', '{"format":"stillhand-site","version":1}', 'shape'],
    ['is of a newer version', hubSiteText(SITE).replace('"version": 1', '"version": 2'), 'newer'],
    ['is huge', hubSiteText(SITE).padEnd(200_000), 'shape'],
    ['names an address of the web', hubSiteText(SITE).replace('wss://', 'https://'), 'address'],
  ])('whose site’s file %s is told so and works alone', async (_, served, fault) => {
    const { clinic, findSetup, wired } = await rig({ served })
    expect([clinic, await findSetup(), wired]).toEqual([undefined, { faults: [fault] }, []])
  })

  it('is told when the part for the hub does not load, and may ask again', async () => {
    const { findSetup } = await rig({ served: hubSiteText(SITE), failures: 1 })
    expect(await findSetup()).toEqual({ faults: ['notLoaded'] })
    expect(await findSetup()).toBe(setup)
  })

  it('that has left one is told nothing of it', async () => {
    const { clinic, findSetup } = await rig({ kept: '' })
    expect([clinic, await findSetup()]).toEqual([undefined, undefined])
  })
})

describe('a device that has joined a clinic', () => {
  const KEPT = hubSiteText(SITE)

  it('has it without a network, and loads the parts for it once', async () => {
    const { clinic, findSetup, wired, opened } = await rig({ kept: KEPT })
    expect(clinic).toBeDefined()
    await clinic?.start()
    expect(await findSetup()).toBe(setup)
    expect([wired, opened()]).toEqual([[SITE], 1])
  })

  it('has it although the site’s server takes the question and never answers', async () => {
    const { clinic, findSetup, clock } = await rig({ kept: KEPT, hangs: true })
    await clinic?.start()
    const finding = findSetup()
    clock.advance(60_000)
    expect(await finding).toBe(setup)
  })

  it('keeps a new address of the same clinic for its next start, and goes on with the old one now', async () => {
    const { findSetup, wired, kept } = await rig({ kept: KEPT, served: hubSiteText(MOVED) })
    expect(await findSetup()).toEqual(setup)
    expect([wired, await kept()]).toEqual([[SITE], hubSiteText(MOVED)])
  })

  it.each([
    ['no JSON', 'hello', 'json'],
    ['that of another clinic', hubSiteText(OTHER), 'otherClinic'],
    ['a wrong address', hubSiteText(SITE).replace('wss://', 'ws://'), 'address'],
  ])('is told that the file is now %s, and goes on with what it has', async (_, served, fault) => {
    const { clinic, findSetup, wired, kept } = await rig({ kept: KEPT, served })
    expect(clinic).toBeDefined()
    expect(await findSetup()).toEqual({ ...setup, siteFaults: [fault] })
    expect([wired, await kept()]).toEqual([[SITE], KEPT])
  })

  it('whose kept file was damaged works alone and is told what the site says', async () => {
    const { clinic, findSetup } = await rig({ kept: '{"format":"stillhand-hub"' })
    expect([clinic, await findSetup()]).toEqual([undefined, { faults: ['json'] }])
  })

  it('asks again for parts that did not load', async () => {
    const { clinic, wired, clock } = await rig({ kept: KEPT, failures: 1 })
    await clinic?.start()
    expect(clinic?.view()?.link).toBe('alone')
    clock.advance(60_000)
    await new Promise((resolve) => setImmediate(resolve))
    expect([wired, clinic?.view()]).toEqual([[SITE], undefined])
  })
})

describe('a page that another page of the device leaves behind', () => {
  const KEPT = hubSiteText(SITE)

  it('sees nothing where nothing happened, or only the address has changed', async () => {
    expect(await (await rig({})).lookMoved()).toBeUndefined()
    const { lookMoved, write } = await rig({ kept: KEPT })
    expect(await lookMoved()).toBeUndefined()
    await write(HUB_SITE_KEY, hubSiteText(MOVED))
    expect(await lookMoved()).toBeUndefined()
  })

  it('learns that the device has joined, and stays as it began', async () => {
    const { clinic, lookMoved, write, wired } = await rig({})
    await write(HUB_SITE_KEY, KEPT)
    await write(HUB_JOINING_KEY, 'D1 first')
    expect(await lookMoved()).toEqual({ kind: 'joined', clinic: 'c1' })
    expect([clinic, wired]).toEqual([undefined, []])
  })

  it('learns that it has left, and sends nothing more under its name', async () => {
    const { clinic, lookMoved, write, stopped } = await rig({ kept: KEPT })
    await clinic?.start()
    await write(HUB_SITE_KEY, '')
    expect(await lookMoved()).toEqual({ kind: 'left', clinic: 'c1' })
    expect(stopped()).toBe(1)
  })

  it('learns that it has joined anew, or another clinic; under that name nothing more is sent', async () => {
    const { clinic, lookMoved, write, stopped } = await rig({ kept: KEPT })
    await clinic?.start()
    await write(HUB_JOINING_KEY, 'D1 second')
    expect([await lookMoved(), stopped()]).toEqual([{ kind: 'joined', clinic: 'c1' }, 0])
    await write(HUB_SITE_KEY, hubSiteText(OTHER))
    expect([await lookMoved(), stopped()]).toEqual([{ kind: 'joined', clinic: 'c2' }, 1])
  })
})
