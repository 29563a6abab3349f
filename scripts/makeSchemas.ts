/** `npm run schemas:make`: writes the schemas beside the data, each made from the code's own lists. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { toJsonSchema } from '@valibot/to-json-schema'
import { format } from 'prettier'
import { defined } from '../src/core/basics/defined.ts'
import { DATA, dataSchemas } from './schemas/dataFiles.ts'

export const schemaFile = (name: string): string => join(DATA, 'schema', `${name}.schema.json`)

/** Name and text of every schema. */
export async function schemaTexts(): Promise<{ name: string; text: string }[]> {
  return Promise.all(
    Object.entries(dataSchemas()).map(async ([name, { title, schema, parts }]) => {
      const body = toJsonSchema(schema, { errorMode: 'ignore', ...defined({ definitions: parts }) })
      return {
        name,
        text: await format(JSON.stringify({ title, ...body }), { parser: 'json', printWidth: 100 }),
      }
    }),
  )
}

/** A data file with the line by which an editor finds its schema, if it has none. */
function linked(text: string, file: string, name: string): string {
  if (text.includes('"$schema"')) return text
  const link = relative(dirname(join(DATA, file)), schemaFile(name))
  return text.replace('{', `{\n  "$schema": "${link.startsWith('.') ? link : `./${link}`}",`)
}

if (process.argv[1] && import.meta.url.endsWith(process.argv[1].replaceAll('\\', '/'))) {
  for (const { name, text } of await schemaTexts()) {
    writeFileSync(schemaFile(name), text)
    const { file } = dataSchemas()[name] ?? {}
    if (file !== undefined && existsSync(join(DATA, file))) {
      const data = readFileSync(join(DATA, file), 'utf8')
      const withLink = linked(data, file, name)
      if (withLink !== data) writeFileSync(join(DATA, file), withLink)
    }
    console.log(`${name}: ${readFileSync(schemaFile(name)).length} bytes`)
  }
}
