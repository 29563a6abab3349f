import { takeStock } from '../../core/catalogue/countedStock.ts'
import { fillText } from '../../core/basics/fillText.ts'
import type { Salvaged } from '../../core/basics/result.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { readKeptStock } from './keptStock.ts'
import { readOwnSite } from './ownSite.ts'
import { STOCK_KEY } from './ownStock.ts'
import { keepSharedSite, readSharedSite } from '../hub/setup/sharedSite.ts'
import type { SiteData } from './siteData.ts'

/**
 * The site as this device has it. What a desk gave meanwhile comes into use first: all of it or nothing, and never
 * while a draw is under way on this device, whose limits and tubes are those with which it began.
 * @param isDrawing whether one is, on any page
 * @returns with what could not be read, in words. Rejects as the store does
 */
export async function readSiteBetweenDraws(
  shipped: SiteData,
  store: SettingsStore,
  isDrawing: () => Promise<boolean>,
): Promise<Salvaged<SiteData>> {
  const shared = await readSharedSite(store)
  const waiting = new Map<string, string>(
    shared?.parts.flatMap(({ what, waiting: text }) =>
      text === undefined ? [] : [[what, text] as const],
    ),
  )
  const own = await readOwnSite(shipped, store)
  if (!shared || waiting.size === 0 || (await isDrawing())) return own

  const tried = await readOwnSite(shipped, {
    ...store,
    read: async (key) => waiting.get(key) ?? store.read(key),
  })
  const stock = waiting.get(STOCK_KEY)
  const isNoStock = Boolean(stock) && !readKeptStock(stock)
  // What was unreadable before is none of theirs.
  const faults = tried.faults.filter((fault) => !own.faults.includes(fault))
  if (faults.length > 0 || isNoStock) {
    const told = fillText(shipped.texts.clinic.shared.unfit, { faults: faults.join(' ') })
    return { ...own, faults: [...own.faults, told] }
  }

  for (const [what, text] of waiting) {
    await store.write(what, what === STOCK_KEY ? await withOurs(text, shipped, store) : text)
  }
  // Last: a page that ends before it does the same again.
  const parts = shared.parts.map(({ waiting: _, ...part }) => part)
  await keepSharedSite(store, { ...shared, parts })
  return tried
}

/** What was drawn here since they counted, and they do not know of, is taken off their stock. */
async function withOurs(
  text: string,
  { catalogue }: SiteData,
  store: Pick<SettingsStore, 'read'>,
): Promise<string> {
  const theirs = readKeptStock(text)
  if (!theirs) return text
  const ours = readKeptStock(await store.read(STOCK_KEY))
  return JSON.stringify(takeStock(theirs, ours, catalogue.tubes))
}
