import { fillText } from '../../core/basics/fillText.ts'
import { nextTube, planned, tubeInHolder, unmixed } from '../../core/protocol/facts.ts'
import { HANDLED, unhandled } from '../../core/protocol/handled.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { StepId } from '../../core/protocol/steps.ts'
import type { ViewTexts } from './viewTexts.ts'

/** More names than this do not fit into one line with the handling; the rack has them all. */
const NAMED_n = 1

/** Which tube a step is about, told apart from its like: its number, its tests, its handling. */
export function tubeAbout(
  s: DrawState,
  step: StepId,
  { texts, testName, words }: ViewTexts,
): string | undefined {
  const { draw } = texts
  const id = tubeOfStep(s, step)
  const tube = id === undefined ? undefined : planned(s, id)
  if (!tube) return undefined
  // The plan in force: a further puncture may have one of its own.
  const { tubes } = s.plan
  const place = { number: tubes.indexOf(tube) + 1, of: tubes.length }
  const names = tube.tests.slice(0, NAMED_n).map(testName).join(', ')
  const more = tube.tests.length - NAMED_n
  const tests = more > 0 ? fillText(draw.testsAndMore, { tests: names, more }) : names
  const which = tests === '' ? tube.name : tests
  const marks = HANDLED.filter((mark) => tube.handling.includes(mark)).map(
    (mark) => words.handling[mark],
  )
  return [fillText(draw.tubeOf, { ...place, which }), ...marks].join('. ')
}

function tubeOfStep(s: DrawState, step: StepId): string | undefined {
  switch (step) {
    case 'tube':
      return nextTube(s)?.id
    case 'drops':
    case 'vacuum':
    case 'filling':
    case 'release':
    case 'takeOff':
      return tubeInHolder(s)?.id
    case 'mix':
      return unmixed(s)[0]?.id
    case 'handling':
      return unhandled(s)[0]?.id
    default:
      return undefined
  }
}
