import { fillText } from '../../../core/basics/fillText.ts'
import type { Salvaged } from '../../../core/basics/result.ts'
import type { SiteData } from '../siteData.ts'
import { previewCatalogue } from './previewCatalogue.ts'

/** The site with the catalogue that was accepted on this device; the shipped one with the reason if it does not read. */
export function keptCatalogue(shipped: SiteData, json: string | undefined): Salvaged<SiteData> {
  if (json === undefined) return { value: shipped, faults: [] }
  const { catalogue, texts } = shipped
  const preview = previewCatalogue(catalogue, { name: 'kept', text: json }, texts)
  if (preview.next) return { value: { ...shipped, catalogue: preview.next }, faults: [] }
  const fault = preview.faults[0]?.text ?? ''
  return { value: shipped, faults: [fillText(texts.site.kept.catalogue, { fault })] }
}
