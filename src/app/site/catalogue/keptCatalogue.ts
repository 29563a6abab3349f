import type { SiteData } from '../siteData.ts'
import { previewCatalogue } from './previewCatalogue.ts'

/** The site with the catalogue that was accepted on this device, if there is one and it still reads. */
export function keptCatalogue(
  shipped: SiteData,
  json: string | undefined,
): { readonly site: SiteData; readonly trouble?: string } {
  if (json === undefined) return { site: shipped }
  const { next, faults } = previewCatalogue(shipped.catalogue, { name: 'kept', text: json })
  if (next) return { site: { ...shipped, catalogue: next } }
  const first = faults[0]
  return {
    site: shipped,
    trouble: `Your own catalog cannot be read, so the shipped one is in use: ${first?.text ?? 'unknown fault'}`,
  }
}
