import { laboratoryOf, type Laboratory, type LaboratoryPart } from '../catalogue/laboratories.ts'
import { partsWith } from '../order/orderParts.ts'
import type { PackSpecimen } from './packSpecimen.ts'

/** What such a laboratory is called where the site does not know it: its name alone came with the order. */
const FOREIGN = 'order'

/** An order named it, and the site has no row for it: how it wants specimens to travel is not known here. */
export const isOfOrder = ({ id }: Pick<Laboratory, 'id'>): boolean => id.startsWith(`${FOREIGN} `)

/** A laboratory by its name or id; to one that the site does not know tubes travel as to the usual one, unfetched. */
export function namedLaboratory(
  laboratories: readonly Laboratory[],
  name: string,
): Laboratory | undefined {
  const bare = plain(name)
  const known = laboratories.find((each) => plain(each.name) === bare || plain(each.id) === bare)
  const usual = laboratories.find(({ tests }) => tests === 'rest')
  if (known || !usual) return known
  return { ...usual, id: `${FOREIGN} ${bare}`, name: name.trim(), tests: [], pickUps: [] }
}

const plain = (text: string): string => text.normalize('NFC').trim().toLowerCase()

/**
 * Where the tests of a tube go: to the laboratory that their order names, else to the site's own for the test. The
 * first is the tube's; the others need an aliquot or a tube of their own.
 */
export function laboratoriesOfTube(
  { tube, order }: Pick<PackSpecimen, 'tube' | 'order'>,
  laboratories: readonly Laboratory[],
): readonly LaboratoryPart[] {
  const parts = new Map<string, { laboratory: Laboratory | undefined; tests: string[] }>()
  for (const test of tube.tests) {
    const named = partsWith(order, test).find(({ laboratory }) => laboratory !== undefined)
    const laboratory =
      named?.laboratory === undefined
        ? laboratoryOf(laboratories, test)
        : namedLaboratory(laboratories, named.laboratory)
    const key = laboratory?.id ?? ''
    const part = parts.get(key) ?? { laboratory, tests: [] }
    part.tests.push(test)
    parts.set(key, part)
  }
  const place = ({ laboratory }: LaboratoryPart): number => {
    const at = laboratory ? laboratories.findIndex(({ id }) => id === laboratory.id) : -1
    return at < 0 ? laboratories.length + Number(laboratory === undefined) : at
  }
  return [...parts.values()].sort((a, b) => place(a) - place(b))
}
