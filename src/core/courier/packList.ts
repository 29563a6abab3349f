import type { Catalogue } from '../catalogue/catalogue.ts'
import type { CarriedAt, Laboratory } from '../catalogue/laboratories.ts'
import { laboratoriesOfTube } from './laboratoryOfTube.ts'
import { isHere, type PackSpecimen } from './packSpecimen.ts'
import { carriedAt } from './transport.ts'

/** Specimens that go into one bag: to one laboratory, at one temperature, in the light or not. */
export interface PackGroup {
  readonly key: string
  /** `undefined` where no laboratory takes their tests. */
  readonly laboratory: Laboratory | undefined
  readonly carriedAt: CarriedAt
  readonly dark: boolean
  readonly invented: boolean
  /** By their numbers. */
  readonly specimens: readonly PackSpecimen[]
}

/** What is still here, packed: laboratories in the site's order, practice apart from everything and last. */
export function packList(
  specimens: readonly PackSpecimen[],
  laboratories: readonly Laboratory[],
  catalogue: Catalogue,
): readonly PackGroup[] {
  const groups = new Map<string, PackGroup & { readonly specimens: PackSpecimen[] }>()
  for (const specimen of specimens.filter(isHere)) {
    const laboratory = laboratoriesOfTube(specimen, laboratories)[0]?.laboratory
    const at = carriedAt(specimen, laboratory, catalogue)
    const dark = specimen.tube.handling.includes('light')
    const { invented } = specimen
    const key = [invented ? 'practice' : '', laboratory?.id ?? '', at, dark ? 'dark' : ''].join('/')
    const group = groups.get(key) ?? {
      key,
      laboratory,
      carriedAt: at,
      dark,
      invented,
      specimens: [],
    }
    group.specimens.push(specimen)
    groups.set(key, group)
  }
  // One that an order named stands behind those of the site.
  const siteRow = ({ id }: Laboratory): number => {
    const at = laboratories.findIndex((each) => each.id === id)
    return at < 0 ? laboratories.length : at
  }
  const place = ({ invented, laboratory }: PackGroup): number =>
    (invented ? laboratories.length + 1 : 0) +
    (laboratory ? siteRow(laboratory) : laboratories.length)
  return [...groups.values()]
    .map((group) => ({
      ...group,
      specimens: [...group.specimens].sort((a, b) => (a.number < b.number ? -1 : 1)),
    }))
    .sort((a, b) => place(a) - place(b) || (a.key < b.key ? -1 : 1))
}
