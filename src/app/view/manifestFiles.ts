import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import type { Laboratory } from '../../core/catalogue/laboratories.ts'
import { manifestOf, type Manifest } from '../../core/courier/manifest.ts'
import { namedLaboratory } from '../../core/courier/laboratoryOfTube.ts'
import type { SentPack } from '../../core/courier/sentPacks.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { TextFile } from '../../ports/page.ts'
import { csv } from '../site/catalogue/writeCatalogue.ts'

/** A manifest with the sum by which a reader can tell that nothing was changed on the way. */
export type SummedManifest = Manifest & { readonly checkSum: string }

/** @param from the practice or clinic that it leaves */
export function manifestFor(
  pack: SentPack,
  from: string,
  site: { readonly catalogue: Catalogue; readonly laboratories: readonly Laboratory[] },
  sha256: Sha256,
): SummedManifest {
  const laboratory =
    pack.laboratory === '' ? undefined : namedLaboratory(site.laboratories, pack.laboratory)
  const { specimens, ...about } = pack
  const { pack: name, courier, sent, missing, missingSaidBy, unknown } = about
  const manifest = manifestOf(
    {
      pack: name,
      from,
      laboratory: pack.laboratory,
      courier,
      sent,
      missing,
      missingSaidBy,
      unknown,
    },
    specimens,
    laboratory,
    site.catalogue,
  )
  return { ...manifest, checkSum: sha256(JSON.stringify(manifest)) }
}

/** The manifest for another machine. The sum is of the JSON without it, in the same order and without spaces. */
export const manifestJson = (manifest: SummedManifest): TextFile => ({
  name: `${manifest.pack || 'pack'}.json`,
  type: 'application/json',
  text: `${JSON.stringify(manifest, null, 2)}\n`,
})

const COLUMNS = [
  'pack',
  'laboratory',
  'sent',
  'courier',
  'number',
  'orderNumber',
  'familyName',
  'givenNames',
  'birthDate',
  'recordNumber',
  'tube',
  'kind',
  'tests',
  'collected',
  'collectedBy',
  'priority',
  'orderedBy',
  'sex',
  'limit',
  'passed',
  'spun',
  'separated',
  'portions',
  'stored',
  'separateBy',
]

/** The manifest as a table; what a spreadsheet would run as a formula is defused. */
export function manifestCsv(manifest: SummedManifest): TextFile {
  const { pack, laboratory, sent, courier, specimens } = manifest
  const rows = specimens.map((row) => ({
    ...{ pack, laboratory, sent, courier },
    ...row,
    tests: row.tests.join(';'),
    passed: row.passed.join(';'),
    spun: row.spun
      .map(({ started, g = '', spin_min = '' }) => `${started} ${g} g ${spin_min} min`)
      .join(';'),
    stored: row.stored === undefined ? '' : `${row.stored.where} ${row.stored.at}`,
  }))
  return { name: `${pack || 'pack'}.csv`, type: 'text/csv', text: csv(COLUMNS, rows) }
}
