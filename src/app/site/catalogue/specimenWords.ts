import { ownValue } from '../../../core/basics/ownValue.ts'
import {
  ADDITIVES,
  hasTrait,
  type Additive,
  type TubeTrait,
} from '../../../core/catalogue/additives.ts'
import { SPECIMEN_KINDS, type Need, type SpecimenKind } from '../../../core/catalogue/catalogue.ts'

/**
 * Words for groups of additives after the colon of a specimen: `plasma:heparin`. Each group stands in the usual
 * preference: gel where nothing speaks against it, thrombin last.
 */
const GROUPS: Readonly<Record<string, readonly Additive[]>> = {
  '': ['activatorGel', 'activator', 'plain', 'thrombin'],
  noGel: ['activator', 'plain'],
  plainOnly: ['plain'],
  heparin: ['heparinLithiumGel', 'heparinLithium'],
  heparinNoGel: ['heparinLithium', 'heparinSodium'],
  edta: ['edtaK2', 'edtaK3', 'edtaK2Gel'],
  edtaNoGel: ['edtaK2', 'edtaK3'],
  fluoride: ['fluorideOxalate', 'fluorideCitrate'],
  aerobic: ['cultureAerobic'],
  anaerobic: ['cultureAnaerobic'],
  mycobacterial: ['cultureMycobacterial'],
}

/**
 * Reads a specimen cell: ways separated by `|`, each `kind` or `kind:group` or `kind:additive`.
 * `serum` alone is any serum tube, `serum:noGel` one without gel, `plasma:heparin` any heparin tube, and so on.
 * The first way is the preferred one. What `neverIn` rules out is left out of the groups.
 * @returns the needs in order of preference, and the words that could not be read.
 */
export function readSpecimen(
  cell: string,
  neverIn: readonly TubeTrait[] = [],
): { needs: Need[]; unknown: string[] } {
  const needs: Need[] = []
  const unknown: string[] = []
  for (const way of cell.split('|').map((part) => part.trim())) {
    const [kind = '', group = ''] = way.split(':').map((part) => part.trim())
    const additives = ownValue(GROUPS, group) ?? (isAdditive(group) ? [group] : undefined)
    if (!isKind(kind) || !additives || (group === '' && kind !== 'serum')) unknown.push(way)
    else needs.push(...additives.map((additive) => ({ kind, additive })))
  }
  return { needs: needs.filter(({ additive }) => !hasTrait(additive, neverIn)), unknown }
}

/** The cell that reads back to the same needs in the same order of preference. */
export function writeSpecimen(needs: readonly Need[]): string {
  const ways: string[] = []
  for (let at = 0; at < needs.length;) {
    const { kind, additive } = needs[at] ?? { kind: 'serum', additive: 'plain' }
    const [group, length] = longestGroup(needs.slice(at), kind)
    ways.push(length === 0 ? `${kind}:${additive}` : group === '' ? kind : `${kind}:${group}`)
    at += Math.max(1, length)
  }
  return ways.join('|')
}

/** The group of most additives that the needs begin with, and how many they are; 0 where none fits. */
function longestGroup(needs: readonly Need[], kind: SpecimenKind): readonly [string, number] {
  return Object.entries(GROUPS)
    .filter(([group, additives]) => {
      const whole = additives.every(
        (name, i) => needs[i]?.kind === kind && needs[i].additive === name,
      )
      return whole && additives.length > 1 && (group !== '' || kind === 'serum')
    })
    .map(([group, additives]) => [group, additives.length] as const)
    .reduce((a, b) => (b[1] > a[1] ? b : a), ['', 0])
}

const isAdditive = (word: string): word is Additive =>
  ADDITIVES.some((additive) => additive === word)
const isKind = (word: string): word is SpecimenKind => SPECIMEN_KINDS.some((kind) => kind === word)
