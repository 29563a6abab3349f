import { fillText } from '../../core/basics/fillText.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import { layStrip } from '../../core/record/layStrip.ts'
import { rulerStrip } from '../../core/record/rulerStrip.ts'
import { stripSvg } from '../../core/record/stripSvg.ts'
import { dayOf } from '../../core/time/format.ts'
import type { Texts } from '../site/texts.ts'

const WIDTH = 1000

/**
 * The ruler of a draw as an SVG file.
 * @param broken what is wrong with the record, which the picture then says too.
 */
export function stripText(
  log: DrawLog,
  { pictures, note }: Pick<Texts, 'pictures' | 'note'>,
  broken?: string,
): string {
  const { strip } = pictures
  const ruler = rulerStrip(log)
  const drawing = layStrip(
    ruler,
    { strip, note },
    {
      width: WIDTH,
      hasWords: true,
      hasCues: true,
    },
  )
  const day = dayOf(ruler.openedAt)
  return stripSvg(drawing, [
    fillText(strip.title, { drawId: log.drawId, day }),
    ...(ruler.cues.length > 0 ? [strip.cueKey] : []),
    ...(ruler.isInvented ? [note.invented] : []),
    ...(ruler.outcome === undefined ? [note.notClosed] : []),
    ...(broken === undefined ? [] : [broken]),
  ])
}
