import type { Catalogue } from '../catalogue/catalogue.ts'
import { byLaboratory, type CarriedAt, type Laboratory } from '../catalogue/laboratories.ts'
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

/** Laboratory of a specimen: that of its first part; its other parts need an aliquot or a tube of their own. */
const laboratoryOfTube = (
  { tube }: Pick<PackSpecimen, 'tube'>,
  laboratories: readonly Laboratory[],
): Laboratory | undefined => byLaboratory(laboratories, tube.tests)[0]?.laboratory

/** What is still here, packed: laboratories in the site's order, practice apart from everything and last. */
export function packList(
  specimens: readonly PackSpecimen[],
  laboratories: readonly Laboratory[],
  catalogue: Catalogue,
): readonly PackGroup[] {
  const groups = new Map<string, PackGroup & { readonly specimens: PackSpecimen[] }>()
  for (const specimen of specimens.filter(isHere)) {
    const laboratory = laboratoryOfTube(specimen, laboratories)
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
  const place = ({ invented, laboratory }: PackGroup): number =>
    (invented ? laboratories.length + 1 : 0) +
    (laboratory ? laboratories.indexOf(laboratory) : laboratories.length)
  return [...groups.values()]
    .map((group) => ({
      ...group,
      specimens: [...group.specimens].sort((a, b) => (a.number < b.number ? -1 : 1)),
    }))
    .sort((a, b) => place(a) - place(b) || (a.key < b.key ? -1 : 1))
}
