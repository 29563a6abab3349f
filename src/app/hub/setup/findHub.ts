import { faulty, type Result } from '../../../core/basics/result.ts'
import {
  hubSiteText,
  readHubSite,
  type HubSite,
  type HubSiteFault,
} from '../../../core/hub/hubSite.ts'
import type { Clock } from '../../../ports/clock.ts'
import { within } from '../../../ports/patience.ts'
import type { SettingsStore } from '../../../ports/settingsStore.ts'
import { readSiteFile } from '../../../core/text/readSiteFile.ts'
import type { Clinic } from '../clinic.ts'
import { createLateClinic, type OpenedClinic } from '../lateClinic.ts'
import type { ClinicSetup, ClinicSetupFound } from './clinicSetup.ts'

/** Where a device that has joined keeps its site's file: the hub must be known without a network too. */
export const HUB_SITE_KEY = 'hub'
/** Names the joining by which it belongs there: a page that began with another one stands behind. */
export const HUB_JOINING_KEY = 'hubJoining'
/** Served beside the page. */
const FILE = 'hub.json'
/** A network that takes every question and answers none (a login page of a guest network) is none. */
const PATIENCE_ms = 8000

/** The parts that only a device with a hub loads. */
export interface WiredHub {
  open(): Promise<OpenedClinic>
  readonly setup?: ClinicSetup
  /** This device belongs to the clinic no more: nothing is sent under its name by this page. */
  stop(): void
}

/** What another page has made of this device since this one was loaded. */
export interface MovedClinic {
  readonly kind: 'joined' | 'left'
  readonly clinic: string
}

export interface FindHubDeps {
  readonly clock: Clock
  readonly settingsStore: SettingsStore
  /** Reads a text that is served beside the page; rejects where there is none. */
  readonly readText: (path: string, most_B: number) => Promise<string>
  /** Loads the parts for a hub. */
  readonly wire: (site: HubSite) => Promise<WiredHub>
}

export interface FoundHub {
  /** Of a device that has joined one; nothing is waited for but what this device has kept. */
  readonly clinic: Clinic | undefined
  /** Looks what the site says; never rejects. */
  readonly findSetup: () => Promise<ClinicSetupFound>
  /** Looks whether another page has joined a clinic or left it; this one stays as it began. Never rejects. */
  readonly lookMoved: () => Promise<MovedClinic | undefined>
}

/** Looks whether this device has a hub. A device alone reads one small value, and nothing more of it is loaded. */
export async function findHub({
  clock,
  settingsStore,
  readText,
  wire,
}: FindHubDeps): Promise<FoundHub> {
  const readKept = (key: string) => settingsStore.read(key).catch(() => undefined)
  const text = await readKept(HUB_SITE_KEY)
  const kept = text ? readHubSite(text) : undefined
  const joining = kept && (await readKept(HUB_JOINING_KEY))
  const wired = new Map<HubSite, Promise<WiredHub>>()

  /** What could not be loaded is tried again at the next call. */
  function load(site: HubSite): Promise<WiredHub> {
    const known = wired.get(site)
    if (known) return known
    const loading = wire(site)
    wired.set(site, loading)
    loading.catch(() => wired.delete(site))
    return loading
  }

  async function served(): Promise<Result<HubSite, HubSiteFault> | undefined> {
    const late = (): Error => new Error(`${FILE} does not come.`)
    const found = await readSiteFile(
      (path, most_B) => within(clock, PATIENCE_ms, readText(path, most_B), late),
      FILE,
    )
    return found === undefined ? undefined : readHubSite(found)
  }

  /** What the site says now counts from the next start on. */
  async function renew(site: HubSite): Promise<readonly HubSiteFault[]> {
    const now = await served()
    if (!now) return []
    if (!now.ok) return now.faults
    if (now.value.clinic !== site.clinic) return ['otherClinic']
    const isSame = hubSiteText(now.value) === hubSiteText(site)
    if (!isSame) await settingsStore.write(HUB_SITE_KEY, hubSiteText(now.value))
    return []
  }

  async function lookMoved(): Promise<MovedClinic | undefined> {
    const before = kept?.ok ? kept.value : undefined
    const text = await settingsStore.read(HUB_SITE_KEY)
    const read = text ? readHubSite(text) : undefined
    const now = read?.ok ? read.value : undefined
    if (!now) {
      if (before) (await wired.get(before))?.stop()
      return before && { kind: 'left', clinic: before.clinic }
    }
    const isSame = before?.clinic === now.clinic
    if (isSame && (await readKept(HUB_JOINING_KEY)) === joining) return undefined
    if (before && !isSame) (await wired.get(before))?.stop()
    return { kind: 'joined', clinic: now.clinic }
  }

  return {
    lookMoved: () => lookMoved().catch(() => undefined),
    clinic: kept?.ok
      ? createLateClinic(async () => (await load(kept.value)).open(), clock)
      : undefined,
    findSetup: async () => {
      try {
        if (kept?.ok) {
          const faults = await renew(kept.value).catch(() => [])
          const { setup } = await load(kept.value)
          return !setup || faults.length === 0 ? setup : { ...setup, siteFaults: faults }
        }
        const now = (await served()) ?? (kept && !kept.ok ? faulty(kept.faults) : undefined)
        if (!now) return undefined
        return now.ok ? (await load(now.value)).setup : { faults: now.faults }
      } catch {
        return { faults: ['notLoaded'] }
      }
    },
  }
}
