import { fillText } from '../basics/fillText.ts'
import { readText } from '../text/readText.ts'
import type { SpecimenKind, TestRow } from './catalogue.ts'
import type { CatalogueTexts } from './catalogueTexts.ts'

/** How a specimen travels. What that is in degrees is the laboratory's to say. */
export const CARRIED_AT = ['room', 'cold', 'frozen', 'warm'] as const
export type CarriedAt = (typeof CARRIED_AT)[number]

/** A laboratory that specimens go to, as the site knows it. */
export interface Laboratory {
  /** Unique, and kept: packs and records name it. */
  readonly id: string
  readonly name: string
  /** Codes of the tests that it does; `rest`: every test that no other one names. */
  readonly tests: readonly string[] | 'rest'
  /** How each kind of specimen travels, where its tests do not ask for something else. */
  readonly carriedAt: Readonly<Record<SpecimenKind, CarriedAt>>
  /** When its courier comes, local times `HH:MM`, the earliest first; none where one is called. */
  readonly pickUps: readonly string[]
  /** The most hours that specimens may be on the way. */
  readonly most_h: number
  readonly source: string
}

/** Where a test goes; `undefined` where no laboratory takes it. */
export function laboratoryOf(
  laboratories: readonly Laboratory[],
  test: string,
): Laboratory | undefined {
  return (
    laboratories.find(({ tests }) => tests !== 'rest' && tests.includes(test)) ??
    laboratories.find(({ tests }) => tests === 'rest')
  )
}

/** Tests of one laboratory. */
export interface LaboratoryPart {
  readonly laboratory: Laboratory | undefined
  readonly tests: readonly string[]
}

/** Tests by where they go, laboratories in the site's order, those that nobody takes last. */
export function byLaboratory(
  laboratories: readonly Laboratory[],
  tests: readonly string[],
): readonly LaboratoryPart[] {
  return [...laboratories, undefined]
    .map((laboratory) => ({
      laboratory,
      tests: tests.filter((test) => laboratoryOf(laboratories, test) === laboratory),
    }))
    .filter((part) => part.tests.length > 0)
}

/** A laboratory that cannot be taken over as it stands. `row` counts from 1; 0: all of them together. */
export interface LaboratoryFault {
  readonly row: number
  readonly text: string
}

/** Everything that is wrong with how tests are given to laboratories. */
export function laboratoryFaults(
  laboratories: readonly Laboratory[],
  tests: readonly Pick<TestRow, 'code'>[],
  { faults: texts }: CatalogueTexts,
): readonly LaboratoryFault[] {
  const known = new Set(tests.map(({ code }) => code))
  const given = new Map<string, string>()
  const ids = new Set<string>()
  const faults: LaboratoryFault[] = []
  laboratories.forEach((laboratory, index) => {
    const row = index + 1
    const say = (text: string): void => void faults.push({ row, text })
    const { id, name, pickUps } = laboratory
    if (ids.has(id)) say(fillText(texts.codeTaken, { code: id, row: [...ids].indexOf(id) + 1 }))
    ids.add(id)
    if (!readText(name, 'name').ok || name === '') say(fillText(texts.noName))
    for (const test of laboratory.tests === 'rest' ? [] : laboratory.tests) {
      const other = given.get(test)
      if (!known.has(test)) say(fillText(texts.unknownTest, { code: test }))
      else if (other !== undefined) say(fillText(texts.laboratoryTwice, { code: test, other }))
      given.set(test, name)
    }
    if (pickUps.some((time, at) => !isTime(time) || time <= (pickUps[at - 1] ?? ''))) {
      say(fillText(texts.pickUps, { times: pickUps.join(', ') }))
    }
  })
  const rest = laboratories.filter((each) => each.tests === 'rest').length
  if (rest !== 1) faults.push({ row: 0, text: fillText(texts.oneRest, { n: rest }) })
  return faults
}

const isTime = (text: string): boolean => /^(?:[01]\d|2[0-3]):[0-5]\d$/.test(text)

/** What of them can be used with other tests than they were written for. */
export function laboratoriesFor(
  laboratories: readonly Laboratory[],
  tests: readonly Pick<TestRow, 'code'>[],
): readonly Laboratory[] {
  const codes = new Set(tests.map(({ code }) => code))
  return laboratories.map((each) =>
    each.tests === 'rest' ? each : { ...each, tests: each.tests.filter((code) => codes.has(code)) },
  )
}
