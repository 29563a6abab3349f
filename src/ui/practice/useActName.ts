import type { DrawEvent } from '../../core/protocol/events.ts'
import { isUndoable } from '../../core/protocol/undoable.ts'
import { eventName } from '../../core/record/eventName.ts'
import type { RulerStrip } from '../../core/record/rulerStrip.ts'
import { useFigureTexts } from '../figures/useFigureTexts.ts'
import { useServices } from '../shared/appContext.tsx'

/** An act of a draw in a few words, with the tube that it is about. */
export function useActName({
  tubeNames,
}: Pick<RulerStrip, 'tubeNames'>): (event: DrawEvent) => string {
  const { texts, fill } = useFigureTexts()
  const { note } = useServices().site.texts
  return (event) => {
    const { score } = texts
    if (event.type === 'drawClosed') return score.closed
    const act = isUndoable(event.type) ? eventName(event, note) : score.other
    const tube =
      'tubeId' in event && event.tubeId !== undefined ? tubeNames.get(event.tubeId) : undefined
    return tube === undefined ? act : fill(score.ofTube, { act, tube })
  }
}
