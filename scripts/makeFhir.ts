/**
 * `npm run fhir:make [-- BASE FOLDER]`: writes our own code systems as FHIR R4 resources, into `public/fhir` or, for a
 * site that publishes them under an address of its own, into a folder of its choice.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { format } from 'prettier'
import { siteCatalogue } from '../src/app/site/catalogue/siteCatalogue.ts'
import { isWebAddress } from '../src/app/site/recordSystems.ts'
import { texts } from '../src/data/en/texts.ts'
import { ROOT } from './checks/runTool.ts'
import { codeSystemFiles } from './fhir/codeSystems.ts'
import { DATA } from './schemas/dataFiles.ts'

export const FHIR_FOLDER = join(ROOT, 'public', 'fhir')

const read = (name: string): string => readFileSync(join(DATA, 'catalogue', name), 'utf8')

/** Name and text of each file, under a base or under our own names. */
export function fhirFiles(base?: string): Promise<{ name: string; text: string }[]> {
  const catalogue = siteCatalogue(
    {
      tests: read('tests.csv'),
      tubes: read('tubes.csv'),
      stock: read('stock.csv'),
      norms: read('norms.json'),
      preferences: read('preferences.json'),
      series: read('series.json'),
      search: read('search.json'),
      bloodLimits: read('bloodLimits.json'),
      laboratories: read('laboratories.json'),
    },
    texts,
  ).catalogue
  return Promise.all(
    codeSystemFiles(catalogue, base).map(async ({ name, resource }) => ({
      name,
      text: await format(JSON.stringify(resource), { parser: 'json', printWidth: 100 }),
    })),
  )
}

if (process.argv[1] && import.meta.url.endsWith(process.argv[1].replaceAll('\\', '/'))) {
  const [base, folder = FHIR_FOLDER] = process.argv.slice(2)
  if (base !== undefined && (!isWebAddress(base) || folder === FHIR_FOLDER)) {
    console.error('Give an address (https://…) and a folder: npm run fhir:make -- BASE FOLDER')
    process.exit(2)
  }
  mkdirSync(folder, { recursive: true })
  for (const { name, text } of await fhirFiles(base)) writeFileSync(join(folder, name), text)
}
