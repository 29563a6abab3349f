import { isOtherSupply } from '../../../core/catalogue/otherSupplies.ts'
import { fillText } from '../../../core/basics/fillText.ts'
import type { Salvaged } from '../../../core/basics/result.ts'
import type { SiteData } from '../siteData.ts'
import { readCatalogueFile } from './readCatalogueFile.ts'

/**
 * The site with the catalogue that was accepted on this device; the shipped one with the reason if it does not read.
 */
export function keptCatalogue(shipped: SiteData, json: string | undefined): Salvaged<SiteData> {
  if (!json) return { value: shipped, faults: [] }
  const { texts } = shipped
  const reading = readCatalogueFile(shipped.catalogue, json, texts)
  if (reading.ok) {
    const codes = new Set(reading.value.tubes.map(({ code }) => code))
    // Invented lots of tubes that this site does not have would stop every rehearsal.
    const { tubes } = reading.value
    const stock = shipped.stock.filter(
      (lot) => codes.has(lot.tubeCode) || isOtherSupply(lot, tubes),
    )
    return { value: { ...shipped, catalogue: reading.value, stock }, faults: [] }
  }
  const fault = reading.faults[0]?.text ?? ''
  return { value: shipped, faults: [fillText(texts.site.kept.catalogue, { fault })] }
}
