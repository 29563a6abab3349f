/**
 * Words that tests are looked for by in the form, besides their names and aliases. They may be vague and may stand for
 * several tests, so nothing is ever ordered by them alone: an order file is read by names and aliases only.
 */
export interface SearchWords {
  /** Codes that are offered before anything is typed, the most used first. */
  readonly common: readonly string[]
  readonly names: readonly SearchName[]
}

export interface SearchName {
  /** `U&E`, `clotting`. */
  readonly words: readonly string[]
  /** Codes, the likeliest first. */
  readonly tests: readonly string[]
}

interface Coded {
  readonly code: string
}

/** Codes in them that are no test of the catalogue. */
export function unknownInSearch(
  { common, names }: SearchWords,
  tests: readonly Coded[],
): readonly string[] {
  const known = new Set(tests.map(({ code }) => code))
  const named = [...common, ...names.flatMap((name) => name.tests)]
  return [...new Set(named.filter((code) => !known.has(code)))]
}

/** What of them can be used with these tests. */
export function searchWordsFor(
  { common, names }: SearchWords,
  tests: readonly Coded[],
): SearchWords {
  const known = new Set(tests.map(({ code }) => code))
  return {
    common: common.filter((code) => known.has(code)),
    names: names
      .map(({ words, tests: codes }) => ({ words, tests: codes.filter((code) => known.has(code)) }))
      .filter((name) => name.tests.length > 0),
  }
}
