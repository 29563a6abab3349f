import { readFileSync, writeFileSync } from 'node:fs'
import { toJsonSchema } from '@valibot/to-json-schema'
import { format } from 'prettier'
import {
  BLOOD_LIMITS_SCHEMA,
  CATALOGUE_SCHEMA,
  NORMS_SCHEMA,
  ORDER_SCHEMA,
} from '../src/app/site/catalogue/schemas.ts'

/** The schemas published beside the data, each made from the one the app itself checks with. */
const SCHEMAS = {
  catalogue: { title: 'Catalog of tests and tubes', schema: CATALOGUE_SCHEMA },
  norms: { title: 'Values the planner assumes', schema: NORMS_SCHEMA },
  bloodLimits: { title: 'Blood volume limits', schema: BLOOD_LIMITS_SCHEMA },
  order: { title: 'An order for the planner', schema: ORDER_SCHEMA },
}

export const schemaFile = (name: string): URL =>
  new URL(`../src/data/schema/${name}.schema.json`, import.meta.url)

/** File name and text of every schema. */
export async function schemaTexts(): Promise<{ name: string; text: string }[]> {
  return Promise.all(
    Object.entries(SCHEMAS).map(async ([name, { title, schema }]) => {
      const body = toJsonSchema(schema, { errorMode: 'ignore' })
      return {
        name,
        text: await format(JSON.stringify({ title, ...body }), { parser: 'json', printWidth: 100 }),
      }
    }),
  )
}

if (process.argv[1] && import.meta.url.endsWith(process.argv[1].replaceAll('\\', '/'))) {
  for (const { name, text } of await schemaTexts()) {
    const file = schemaFile(name)
    writeFileSync(file, text)
    console.log(`${name}: ${readFileSync(file).length} bytes`)
  }
}
