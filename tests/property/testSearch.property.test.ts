import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createTestSearch } from '../../src/core/catalogue/testSearch.ts'
import { SITE } from '../support/planning.ts'

const { tests, tubes, search: words } = SITE.catalogue
const search = createTestSearch(SITE.catalogue)

/** Everything a test can be called, in lower case, with its words; worked out without the search. */
const namesOf = (code: string): readonly string[] => {
  const test = tests.find((each) => each.code === code)!
  const said = words!.names
    .filter((name) => name.tests.includes(code))
    .flatMap((name) => name.words)
  return [test.name, ...test.aliases, test.code, ...said].map((name) => name.toLowerCase())
}
const capsOf = (code: string): readonly string[] => {
  const accepted = tests.find((each) => each.code === code)!.accepts.map(({ additive }) => additive)
  return tubes
    .filter(({ additive }) => accepted.includes(additive))
    .map(({ closure }) => closure.toLowerCase())
}
const wordsOf = (name: string): readonly string[] => name.split(/[^a-z0-9]+/).filter(Boolean)
const beginsAWord = (code: string, typed: string): boolean =>
  [...namesOf(code), ...capsOf(code)].some((name) =>
    wordsOf(name).some((word) => word.startsWith(typed)),
  )

/** Parts of the catalogue's own words, which is what people type; no "ae" and "oe", which have a test of their own. */
const pool = [
  ...new Set(tests.flatMap(({ code }) => [...namesOf(code), ...capsOf(code)].flatMap(wordsOf))),
]
const typed = fc
  .tuple(fc.constantFrom(...pool), fc.nat(6), fc.integer({ min: 1, max: 8 }))
  .map(([word, from, length]) => word.slice(from, from + length))
  .filter((part) => part !== '' && !/ae|oe|sulph/.test(part))

describe('the order of what is found', () => {
  it('never puts a match within a word above one at the beginning of a word', () => {
    fc.assert(
      fc.property(typed, (part) => {
        const begins = search(part).map(({ test }) => beginsAWord(test.code, part))
        expect(
          begins.indexOf(false) === -1 || !begins.slice(begins.indexOf(false)).includes(true),
          part,
        ).toBe(true)
      }),
      { numRuns: 1000 },
    )
  })

  it('misses no test of which a word begins with what was typed', () => {
    fc.assert(
      fc.property(typed, (part) => {
        const found = new Set(search(part).map(({ test }) => test.code))
        for (const { code } of tests)
          if (beginsAWord(code, part)) expect(found, part).toContain(code)
      }),
      { numRuns: 300 },
    )
  })

  it('stands whatever is typed, and names no test twice', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 30 }), (text) => {
        const codes = search(text).map(({ test }) => test.code)
        expect(new Set(codes).size).toBe(codes.length)
      }),
      { numRuns: 500 },
    )
  })
})
