import { readScenario } from '../../core/scenario/readScenario.ts'
import { scenarioVocabulary } from '../../core/scenario/vocabulary.ts'
import type { NamedScenario } from './namedScenario.ts'
import { allWordings } from './phraseBook.ts'
import { scenarioIn, type PracticeWords } from './practiceTexts.ts'
import type { SiteData } from './siteData.ts'

/**
 * Practice scripts by file name; one that does not read is left out here and fails its test. The straight draw is
 * first.
 * @param site the phrases, and the words by which the scripts name buttons: the English ones
 * @param shown the language that a trainee reads; without it as the scripts are written
 */
export function readScenarios(
  texts: Readonly<Record<string, string>>,
  { phrases, words }: Pick<SiteData, 'phrases' | 'words'>,
  shown: PracticeWords = { words },
): readonly NamedScenario[] {
  const vocabulary = scenarioVocabulary(allWordings(phrases), words.commands)
  const read = Object.entries(texts).flatMap(([path, text]) => {
    const reading = readScenario(text, vocabulary)
    const id = path.replace(/^.*\//, '').replace(/\.txt$/, '')
    return reading.ok ? [scenarioIn({ id, scenario: reading.value }, shown)] : []
  })
  const first = (id: string): number => (id === 'straight-draw' ? 0 : 1)
  return read.sort(
    (a, b) => first(a.id) - first(b.id) || a.scenario.title.localeCompare(b.scenario.title),
  )
}
