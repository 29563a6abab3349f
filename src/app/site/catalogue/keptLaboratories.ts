import { fillText } from '../../../core/basics/fillText.ts'
import type { Salvaged } from '../../../core/basics/result.ts'
import type { TestRow } from '../../../core/catalogue/catalogue.ts'
import { laboratoriesFor, type Laboratory } from '../../../core/catalogue/laboratories.ts'
import type { SiteData } from '../siteData.ts'
import { readLaboratories } from './readJson.ts'

/**
 * The laboratories that were accepted on this device; the shipped ones, with the reason if those do not read.
 * @param tests of the catalogue in use: a laboratory loses those that are gone
 */
export function keptLaboratories(
  shipped: SiteData,
  json: string | undefined,
  tests: readonly TestRow[],
): Salvaged<readonly Laboratory[]> {
  const ours = { value: laboratoriesFor(shipped.shippedLaboratories, tests), faults: [] }
  if (!json) return ours
  const { texts } = shipped
  // A catalog may have lost tests since the laboratories were kept: those are no fault of theirs.
  const all = [...tests, ...shipped.shippedCatalogue.tests]
  const reading = readLaboratories(json, all, texts)
  if (reading.ok) return { value: laboratoriesFor(reading.value, tests), faults: [] }
  const fault = reading.faults[0]?.text ?? ''
  return { ...ours, faults: [fillText(texts.site.kept.laboratories, { fault })] }
}

/** Laboratories as the text of a file that `readLaboratories` reads. */
export function laboratoriesJson(laboratories: readonly Laboratory[]): string {
  return `${JSON.stringify({ version: '1', laboratories }, null, 2)}\n`
}
