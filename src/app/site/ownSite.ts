import type { Salvaged } from '../../core/basics/result.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { keptCatalogue } from './catalogue/keptCatalogue.ts'
import type { SiteData } from './siteData.ts'
import { keptPolicy } from './readPolicy.ts'

/** Where the site's own catalogue and limits are kept on this device. */
const CATALOGUE_KEY = 'catalogue'
const POLICY_KEY = 'policy'

/** The shipped site with what was kept on this device in place of it, and what of that could not be read. */
export async function readOwnSite(
  shipped: SiteData,
  store: SettingsStore,
): Promise<Salvaged<SiteData>> {
  const kept = keptCatalogue(shipped, await store.read(CATALOGUE_KEY))
  const limits = keptPolicy(shipped.defaultPolicy, await store.read(POLICY_KEY), shipped.texts)
  return {
    value: { ...kept.value, policy: limits.value },
    faults: [...kept.faults, ...limits.faults],
  }
}

/** Keeps what a site brings of its own; it is in use from the next start on. Rejects where it cannot be kept. */
export interface SiteKeeper {
  keepCatalogue(json: string): Promise<void>
  /** The shipped catalogue is in use again. */
  forgetCatalogue(): Promise<void>
  keepPolicy(json: string): Promise<void>
}

export function createSiteKeeper(store: SettingsStore, startAnew: () => void): SiteKeeper {
  const keep = (key: string) => async (json: string) => {
    await store.write(key, json)
    startAnew()
  }
  const keepCatalogue = keep(CATALOGUE_KEY)
  return {
    keepCatalogue,
    forgetCatalogue: () => keepCatalogue(''),
    keepPolicy: keep(POLICY_KEY),
  }
}
