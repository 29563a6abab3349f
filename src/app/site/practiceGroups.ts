import { TRAINS, type Scenario } from '../../core/scenario/scenario.ts'
import type { NamedScenario } from './namedScenario.ts'

/** What a practice draw trains, in the order of the list; one that does not say stands under `other`. */
export const PRACTICE_GROUPS = [...TRAINS, 'other'] as const
export type PracticeGroup = (typeof PRACTICE_GROUPS)[number]

/** What a script trains. */
export const practiceGroupOf = ({ trains }: Pick<Scenario, 'trains'>): PracticeGroup =>
  trains ?? 'other'

/** Those in whose title or description a word begins with each word that was typed. */
export function findPractice(
  scenarios: readonly NamedScenario[],
  typed: string,
): readonly NamedScenario[] {
  const wanted = wordsOf(typed)
  return scenarios.filter(({ scenario: { title, about } }) => {
    const words = wordsOf(`${title} ${about}`)
    return wanted.every((start) => words.some((word) => word.startsWith(start)))
  })
}

/** Accents do not matter: few type them into a field to find something. */
const wordsOf = (text: string): readonly string[] =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .match(/[\p{L}\p{N}]+/gu) ?? []
