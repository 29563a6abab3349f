/** A test as a file names it. */
export interface OrderedTest {
  /** Where in the file: a sentence begins with it, `Request 2`. */
  readonly item: string
  readonly names: readonly TestNaming[]
}

/** One of the ways in which a test is named. */
export interface TestNaming {
  /** Which of the catalogue's codes it is; `words` and `unknown` count only when a person says so. */
  readonly by: 'any' | 'code' | 'loinc' | 'unknown' | 'words'
  readonly value: string
  /** The code system of an unknown code. */
  readonly system?: string
}

/** What an order file says, all as text and not yet checked. */
export interface OrderFields {
  readonly fullName: string
  readonly familyName: string
  readonly givenNames: string
  readonly birthDate: string
  readonly recordNumber: string
  readonly sex: string
  readonly orderNumber: string
  readonly provider: string
  readonly priority: string
  readonly tests: readonly OrderedTest[]
}
