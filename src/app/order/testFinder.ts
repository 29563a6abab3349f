import type { Catalogue } from '../../core/catalogue/catalogue.ts'
import type { Orderable } from '../../core/catalogue/series.ts'
import type { Findings } from './findings.ts'
import { quoted } from '../../core/text/shownText.ts'
import type { OrderedTest, TestNaming } from './orderFields.ts'

/** Finds the catalogue's test for one of an order, and says what stands in the way or must be asked. */
export type TestFinder = (test: OrderedTest, findings: Findings) => string | undefined

/** Names of tests, lower case, and the tests that have them. */
type Index = ReadonlyMap<string, readonly Orderable[]>

/**
 * A finder over a catalogue. Names are looked up, not searched for, so that a long order takes no longer than its
 * length. A name that is code of one test and alias of another means the code: that is how a catalogue is read.
 */
export function createTestFinder(catalogue: Pick<Catalogue, 'tests' | 'series'>): TestFinder {
  const tests: readonly Orderable[] = [...catalogue.tests, ...(catalogue.series ?? [])]
  const byCode = indexOf(tests, ({ code }) => [code])
  const byLoinc = indexOf(tests, ({ loinc }) => [loinc])
  const byLocal = indexOf(tests, ({ localCode, loinc }) => [localCode, loinc])
  const byName = indexOf(tests, ({ name, aliases }) => [name, ...aliases])
  const anywhere = (name: string): readonly Orderable[] =>
    [byCode, byLocal, byName]
      .map((index) => index.get(plain(name)) ?? [])
      .find((found) => found.length > 0) ?? []

  const find = ({ by, value }: TestNaming): readonly Orderable[] => {
    if (by === 'code') return byCode.get(plain(value)) ?? []
    if (by === 'loinc') return byLoinc.get(plain(value)) ?? []
    if (by === 'words') return byName.get(plain(value)) ?? []
    return anywhere(value)
  }

  return ({ item, names }, findings) => {
    const certain = names.filter(({ by }) => by === 'any' || by === 'code' || by === 'loinc')
    // Words that are another test's name are no accident; a code of an unknown system may be.
    const sure = names.filter(({ by }) => by !== 'unknown')
    for (const naming of [...certain, ...names.filter((each) => !certain.includes(each))]) {
      const found = find(naming)
      const [test, other] = found
      if (!test) continue
      const shown = { item, name: quoted(naming.value), test: test.name }
      if (other) {
        findings.refuse('ambiguousTest', { ...shown, other: other.name })
        return undefined
      }
      const odds = sure.flatMap(find).find(({ code }) => code !== test.code)
      if (odds) {
        findings.refuse('codesDisagree', { ...shown, other: odds.name })
        return undefined
      }
      if (naming.by === 'unknown') {
        findings.ask('unknownSystem', { ...shown, system: quoted(naming.system ?? '') })
      }
      if (naming.by === 'words') findings.ask('byWords', shown)
      return test.code
    }
    const first = names[0]?.value ?? ''
    findings.refuse('unknownTest', { item, name: quoted(first) })
    return undefined
  }
}

function indexOf(
  tests: readonly Orderable[],
  namesOf: (test: Orderable) => readonly (string | undefined)[],
): Index {
  const index = new Map<string, Orderable[]>()
  for (const test of tests) {
    for (const name of new Set(namesOf(test).flatMap((each) => (each ? [plain(each)] : [])))) {
      index.set(name, [...(index.get(name) ?? []), test])
    }
  }
  return index
}

const plain = (name: string): string => name.normalize('NFC').trim().toLowerCase()
