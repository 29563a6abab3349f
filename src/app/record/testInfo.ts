import { findTest, type Catalogue } from '../../core/catalogue/catalogue.ts'
import type { TestInfo } from '../../core/fhir/context.ts'

/** What the record needs to know of tests, from the site's catalogue. A code it lacks stands as it is. */
export function testInfo(catalogue: Catalogue): TestInfo {
  return {
    testName: (code) => findTest(catalogue, code)?.name ?? code,
    // A test that is no longer in the catalogue might want it: the flag informs, so it is shown.
    needsFasting: (code) => findTest(catalogue, code)?.fasting ?? true,
    codings: (code) => {
      const { loinc } = findTest(catalogue, code) ?? {}
      return loinc ? [{ system: 'http://loinc.org', code: loinc }] : []
    },
  }
}
