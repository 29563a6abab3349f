import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { needleIsIn, nextTube, tubeInHolder } from '../../core/protocol/facts.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stripOf, type RulerStrip } from '../../core/record/rulerStrip.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import type { RulerMarkView, RulerView } from './drawViewTypes.ts'
import type { ViewTexts } from './viewTexts.ts'

/**
 * What has happened at the arm so far, one mark after another. It only ever grows: what begins keeps its place when it
 * ends, and a further attempt goes on behind the first. Only what is taken back leaves it.
 */
export function rulerView(
  s: DrawState,
  { texts, words }: Pick<ViewTexts, 'texts' | 'words'>,
): RulerView {
  const { ruler } = texts.pictures
  const strip = stripOf(s.kept)
  const tubes = s.plan.tubes
  const placeOf = (id: string): number => tubes.findIndex((tube) => tube.id === id) + 1
  const marks: readonly RulerMarkView[] = [
    ...strip.bands.map((band) => bandMark(band, ruler)),
    ...strip.needles.map(({ seq, attempt, isLancet }): RulerMarkView => {
      const [first, again] = isLancet
        ? [ruler.lancetFirst, ruler.lancet]
        : [ruler.needleFirst, ruler.needle]
      return { seq, look: 'needle', text: attempt === 1 ? first : fillText(again, { attempt }) }
    }),
    ...strip.tubes.map(({ seq, tubeId, place, closure }): RulerMarkView => {
      const text = fillText(ruler.tube, { place: placeOf(tubeId) || place, closure })
      return { seq, look: 'tube', text, closure }
    }),
    ...strip.pressures.map(({ seq }): RulerMarkView => ({ seq, look: 'plain', text: ruler.press })),
    ...strip.marks.flatMap(({ seq, event }): RulerMarkView[] => {
      if (event.type === 'needleOut') return [{ seq, look: 'needle', text: ruler.needleOut }]
      if (event.type === 'bandageOn') return [{ seq, look: 'plain', text: ruler.bandage }]
      if (event.type !== 'exceptionRaised') return []
      return [{ seq, look: 'trouble', text: words.exceptions[event.kind].title }]
    }),
  ]
  const turn = needleIsIn(s) ? (tubeInHolder(s) ?? nextTube(s)) : undefined
  const done = s.tubes.filter(({ off, fill }) => off && fill !== 'empty').length
  const of = tubes.length
  return {
    where: turn
      ? fillText(ruler.turn, { number: placeOf(turn.id), of })
      : fillText(ruler.drawn, { n: done, of }),
    marks: marks.toSorted((a, b) => a.seq - b.seq),
  }
}

function bandMark(
  { seq, length, over_ms }: RulerStrip['bands'][number],
  ruler: ViewTexts['texts']['pictures']['ruler'],
): RulerMarkView {
  if (!length) return { seq, look: 'band', text: ruler.bandOn, isOpen: true }
  const text = fillText(over_ms > 0 ? ruler.bandOver : ruler.band, {
    length: minutesSeconds(length.most_ms),
  })
  return defined({ seq, look: over_ms > 0 ? 'over' : 'band', text })
}
