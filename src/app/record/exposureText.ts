import type { DrawLog } from '../../core/protocol/entry.ts'
import { noteWords } from '../../core/record/noteWords.ts'
import { setText } from '../../core/record/setText.ts'
import { writeExposure } from '../../core/record/exposure.ts'
import type { SiteData } from '../site/siteData.ts'

/** The exposure record of a draw in the site's words; `undefined` when nobody was stuck. */
export function exposureText(
  log: DrawLog,
  { texts, words }: Pick<SiteData, 'texts' | 'words'>,
): string | undefined {
  const [first] = log.entries
  if (!first) return undefined
  const told = noteWords(texts.note, first.at, (code) => code)
  return writeExposure(log, texts.record.exposure, {
    step: (id) => words.steps[id].title,
    device: (set) => (set ? setText(set, told) : texts.record.exposure.lancet),
  })
}
