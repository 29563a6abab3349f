import type { FillCorrection } from '../../core/flow/fillCorrection.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { keptCatalogue } from './catalogue/keptCatalogue.ts'
import { keptLaboratories } from './catalogue/keptLaboratories.ts'
import { FILL_CORRECTIONS_KEY, keptFillCorrections } from './keptFillCorrections.ts'
import { keptRecordSystems, RECORD_SYSTEMS_KEY } from './recordSystems.ts'
import type { SiteData } from './siteData.ts'
import type { SiteTexts } from './siteTexts.ts'
import { keptPolicy } from './readPolicy.ts'

/** Where the site's own catalogue and limits are kept on this device. */
const CATALOGUE_KEY = 'catalogue'
const POLICY_KEY = 'policy'
const LABORATORIES_KEY = 'laboratories'

/** The shipped site with what was kept on this device in place of it, and what of that could not be read. */
export async function readOwnSite(
  shipped: SiteData,
  store: SettingsStore,
): Promise<Salvaged<SiteData>> {
  const kept = keptCatalogue(shipped, await store.read(CATALOGUE_KEY))
  const limits = keptPolicy(shipped.defaultPolicy, await store.read(POLICY_KEY), shipped.texts)
  const { tests } = kept.value.catalogue
  const laboratories = keptLaboratories(shipped, await store.read(LABORATORIES_KEY), tests)
  const fills = keptFillCorrections(await store.read(FILL_CORRECTIONS_KEY), shipped.texts.site)
  const systems = keptRecordSystems(
    await store.read(RECORD_SYSTEMS_KEY),
    shipped.texts.recordServer.unread,
  )
  return {
    value: {
      ...kept.value,
      policy: limits.value,
      laboratories: laboratories.value,
      fillCorrections: fills.value,
      recordSystems: systems.value,
    },
    faults: [
      ...kept.faults,
      ...limits.faults,
      ...laboratories.faults,
      ...fills.faults,
      ...systems.faults,
    ],
  }
}

/** Keeps what a site brings of its own; it is in use from the next start on. Rejects where it cannot be kept. */
export interface SiteKeeper {
  keepCatalogue(json: string): Promise<void>
  /** The shipped catalogue is in use again. */
  forgetCatalogue(): Promise<void>
  keepPolicy(json: string): Promise<void>
  /** `''`: the shipped laboratories are in use again. */
  keepLaboratories(json: string): Promise<void>
  keepRecordSystems(json: string): Promise<void>
  /** Changes what is kept of filling times, as another page may have left it. */
  changeFillCorrections(
    change: (kept: readonly FillCorrection[]) => readonly FillCorrection[],
  ): Promise<void>
}

export function createSiteKeeper(
  store: SettingsStore,
  texts: SiteTexts,
  startAnew: () => void,
): SiteKeeper {
  const keep = (key: string) => async (json: string) => {
    await store.write(key, json)
    startAnew()
  }
  const keepCatalogue = keep(CATALOGUE_KEY)
  return {
    keepCatalogue,
    forgetCatalogue: () => keepCatalogue(''),
    keepPolicy: keep(POLICY_KEY),
    keepLaboratories: keep(LABORATORIES_KEY),
    keepRecordSystems: keep(RECORD_SYSTEMS_KEY),
    changeFillCorrections: async (change) => {
      const kept = keptFillCorrections(await store.read(FILL_CORRECTIONS_KEY), texts)
      await keep(FILL_CORRECTIONS_KEY)(JSON.stringify(change(kept.value)))
    },
  }
}
