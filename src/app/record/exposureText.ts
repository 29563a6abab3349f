import type { DrawLog } from '../../core/protocol/entry.ts'
import { writeExposure } from '../../core/record/exposure.ts'
import type { SiteData } from '../site/siteData.ts'

/** The exposure record of a draw in the site's words; `undefined` when nobody was stuck. */
export function exposureText(
  log: DrawLog,
  { texts, words }: Pick<SiteData, 'texts' | 'words'>,
): string | undefined {
  return writeExposure(log, texts.record.exposure, {
    step: (id) => words.steps[id].title,
    needleKind: (kind) => texts.note.words.needleKind[kind],
  })
}
