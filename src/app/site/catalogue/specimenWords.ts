import { ownValue } from '../../../core/basics/ownValue.ts'
import { ADDITIVES, type Additive } from '../../../core/catalogue/additives.ts'
import { SPECIMEN_KINDS, type Need, type SpecimenKind } from '../../../core/catalogue/catalogue.ts'

/** Words for groups of additives after the colon of a specimen: `plasma:heparin`. */
const GROUPS: Readonly<Record<string, readonly Additive[]>> = {
  '': ['plain', 'activator', 'activatorGel', 'thrombin'],
  noGel: ['plain', 'activator'],
  plainOnly: ['plain'],
  heparin: ['heparinLithium', 'heparinLithiumGel'],
  heparinNoGel: ['heparinLithium', 'heparinSodium'],
  edta: ['edtaK2', 'edtaK3', 'edtaK2Gel'],
  edtaNoGel: ['edtaK2', 'edtaK3'],
  fluoride: ['fluorideOxalate', 'fluorideCitrate'],
  aerobic: ['cultureAerobic'],
  anaerobic: ['cultureAnaerobic'],
}

/**
 * Reads a specimen cell: ways separated by `|`, each `kind` or `kind:group` or `kind:additive`.
 * `serum` alone is any serum tube, `serum:noGel` one without gel, `plasma:heparin` any heparin tube, and so on.
 * @returns the needs, and the words that could not be read.
 */
export function readSpecimen(cell: string): { needs: Need[]; unknown: string[] } {
  const needs: Need[] = []
  const unknown: string[] = []
  for (const way of cell.split('|').map((part) => part.trim())) {
    const [kind = '', group = ''] = way.split(':').map((part) => part.trim())
    const additives = ownValue(GROUPS, group) ?? (isAdditive(group) ? [group] : undefined)
    if (!isKind(kind) || !additives || (group === '' && kind !== 'serum')) unknown.push(way)
    else needs.push(...additives.map((additive) => ({ kind, additive })))
  }
  // Any one of the ways will do, so their order says nothing: one order for all makes files comparable.
  const place = ({ kind, additive }: Need): number =>
    SPECIMEN_KINDS.indexOf(kind) * ADDITIVES.length + ADDITIVES.indexOf(additive)
  return { needs: needs.sort((a, b) => place(a) - place(b)), unknown }
}

/** The cell that reads back to the same needs. */
export function writeSpecimen(needs: readonly Need[]): string {
  const ways: string[] = []
  for (const kind of SPECIMEN_KINDS) {
    let left = needs.filter((need) => need.kind === kind).map((need) => need.additive)
    for (const [group, additives] of Object.entries(GROUPS)) {
      const whole = additives.length > 1 && additives.every((additive) => left.includes(additive))
      if (!whole || (group === '' && kind !== 'serum')) continue
      ways.push(group === '' ? kind : `${kind}:${group}`)
      left = left.filter((additive) => !additives.includes(additive))
    }
    ways.push(...left.map((additive) => `${kind}:${additive}`))
  }
  return ways.join('|')
}

const isAdditive = (word: string): word is Additive =>
  ADDITIVES.some((additive) => additive === word)
const isKind = (word: string): word is SpecimenKind => SPECIMEN_KINDS.some((kind) => kind === word)
