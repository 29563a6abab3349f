import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { fhirFiles, FHIR_FOLDER } from '../../scripts/makeFhir.ts'
import { structureIssues } from '../support/fhirDefinitions.ts'

describe('our own code systems', () => {
  it('stand in public/fhir as the code has them now', async () => {
    const files = await fhirFiles()
    expect(readdirSync(FHIR_FOLDER).sort()).toEqual(files.map(({ name }) => name).sort())
    for (const { name, text } of files) {
      expect(readFileSync(join(FHIR_FOLDER, name), 'utf8'), 'npm run fhir:make').toBe(text)
    }
  })

  it('fit the structure definitions, with every code once and words for it', async () => {
    for (const { name, text } of await fhirFiles()) {
      const resource = JSON.parse(text) as { concept?: { code: string; display: string }[] }
      expect(structureIssues(resource), name).toEqual([])
      const codes = (resource.concept ?? []).map(({ code }) => code)
      expect(new Set(codes).size).toBe(codes.length)
      for (const { display } of resource.concept ?? []) expect(display).toMatch(/^[^{}]+$/)
    }
  })

  it('stand under the address of a site that publishes them', async () => {
    const all = (await fhirFiles('https://example.org/fhir')).map(({ text }) => text).join()
    expect(all).toContain('"url": "https://example.org/fhir/CodeSystem/tube"')
    expect(all).toContain('"url": "https://example.org/fhir/ValueSet/tube"')
    expect(all).not.toContain('urn:stillhand')
  })
})
