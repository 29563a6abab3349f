import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Ajv from 'ajv'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { schemaFile, schemaTexts } from '../../scripts/makeSchemas.ts'
import { DATA, dataSchemas } from '../../scripts/schemas/dataFiles.ts'
import { isRecord } from '../../src/core/basics/isRecord.ts'

/** Imported, not only read, so that a change of a data file runs this test. */
const FILES: Readonly<Record<string, unknown>> = Object.fromEntries(
  Object.entries(
    import.meta.glob('../../src/data/**/*.json', { eager: true, import: 'default' }),
  ).map(([path, value]) => [path.replace('../../src/data/', ''), value]),
)
const DATA_FILES = Object.keys(FILES).filter((path) => !path.startsWith('schema/'))
const REMEDY = 'Run "npm run schemas:make".'

const schemas = dataSchemas()
const languages = readdirSync(DATA, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && existsSync(join(DATA, entry.name, 'words.json')))
  .map(({ name }) => name)
/** `de/words.json` is held to the schema of `en/words.json`. */
const nameOf = (file: string): string | undefined => {
  const [folder = ''] = file.split('/')
  const english = languages.includes(folder) ? file.replace(folder, 'en') : file
  return Object.entries(schemas).find(([, schema]) => schema.file === english)?.[0]
}

describe('the schemas of the data files', () => {
  it('on disk are the ones made from the code, and there is no other', async () => {
    const made = await schemaTexts()
    for (const { name, text } of made) {
      expect(readFileSync(schemaFile(name), 'utf8'), `${name}: ${REMEDY}`).toBe(text)
    }
    const onDisk = readdirSync(join(DATA, 'schema'))
    expect(onDisk.sort()).toEqual(made.map(({ name }) => `${name}.schema.json`).sort())
  })

  it('leave out no data file', () => {
    expect(DATA_FILES.length).toBeGreaterThan(5)
    expect(DATA_FILES.filter((file) => nameOf(file) === undefined)).toEqual([])
  })

  it.each(DATA_FILES)('%s fits its own, and names it', (file) => {
    const data = FILES[file]
    const name = nameOf(file) ?? ''
    const { issues } = v.safeParse(schemas[name]?.schema ?? v.never(), data)
    expect(issues?.map((issue) => `${v.getDotPath(issue) ?? ''}: ${issue.message}`) ?? []).toEqual(
      [],
    )
    // An independent validator reads the published file, as an editor does.
    const published = JSON.parse(readFileSync(schemaFile(name), 'utf8')) as object
    const check = new Ajv({ allErrors: true, strict: false }).compile(published)
    expect(check(data) ? [] : check.errors).toEqual([])
    expect(check({ ...(data as object), nobodyKnows: 1 })).toBe(false)
    const link = isRecord(data) ? data['$schema'] : undefined
    expect(join(DATA, dirname(file), String(link))).toBe(schemaFile(name))
  })
})

/** What is listened for, and the commands of the terminal. */
const ENGLISH_ONLY = ['phrases.json', 'betweenPhrases.json', 'cli.json']
/** English practice stands in the scripts themselves. */
const NOT_ENGLISH = ['practice.json']

describe.each(languages)('the language %s', (language) => {
  it('has every file that English has, and says which language it is', () => {
    const filesOf = (folder: string): readonly string[] => readdirSync(join(DATA, folder)).sort()
    const english = filesOf('en')
    const wanted =
      language === 'en'
        ? english
        : [...english.filter((file) => !ENGLISH_ONLY.includes(file)), ...NOT_ENGLISH].sort()
    expect(english).not.toEqual(expect.arrayContaining(NOT_ENGLISH))
    expect(filesOf(language)).toEqual(wanted)
    for (const [file, data] of Object.entries(FILES)) {
      if (!file.startsWith(`${language}/`) || !isRecord(data) || !('language' in data)) continue
      expect(data['language'], file).toBe(language)
    }
  })
})
