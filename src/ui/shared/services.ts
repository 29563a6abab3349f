/** A test of the catalogue as the screens need it. */
export interface TestMatch {
  readonly code: string
  readonly name: string
  readonly aliases: readonly string[]
}

export interface ScenarioRow {
  readonly id: string
  readonly title: string
  readonly about: string
}

/** Pure look-ups behind the screens. None throws. */
export interface UiServices {
  /** Best matches first; everything when nothing is typed. */
  readonly searchTests: (typed: string) => readonly TestMatch[]
  /** The test's name, or the code itself when the catalogue does not know it. */
  readonly testName: (code: string) => string
  /** Practice draws; absent when there are none. */
  readonly practice?: {
    readonly scenarios: readonly ScenarioRow[]
    readonly onStart: (id: string) => void
  }
}
