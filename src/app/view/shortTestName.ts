import { findTest, type Catalogue } from '../../core/catalogue/catalogue.ts'
import { shortName } from '../../core/catalogue/shortName.ts'

/** The short name of a test by its code; a code that the catalog lacks stands as it is. */
export function shortTestName(catalogue: Catalogue): (code: string) => string {
  return (code) => {
    const test = findTest(catalogue, code)
    return test ? shortName(test) : code
  }
}
