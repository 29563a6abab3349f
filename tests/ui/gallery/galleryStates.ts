import type { DrawView } from '../../../src/app/view/drawViewTypes.ts'
import { askedStates } from './askedStates.ts'
import { departures, type Departure } from './departures.ts'
import { followed } from './followed.ts'
import type { GalleryState } from './galleryState.ts'
import { opened, viewAt, type Moment } from './moment.ts'
import { CARD, FINGER, HEEL, SIX_TUBES, SYRINGE } from './openings.ts'
import { questions } from './questions.ts'
import { severeWays } from './severeWays.ts'
import { specials } from './specials.ts'

export interface Gallery {
  /** Every state, those that look like an earlier one left out. */
  readonly states: readonly GalleryState[]
  /** The names of the departures that it follows. */
  readonly departures: readonly string[]
}

/**
 * Every state of the draw screen: each step of a draw of six tubes, every departure that the walk knows with what
 * follows from it, every alarm at every phase, every question, and what stands outside of these.
 * @param narrow only the straight ways and what stands outside: a second's work
 */
export function gallery(narrow = false): Gallery {
  const seen = new Set<string>()
  const straight = followed(opened(SIX_TUBES), seen)
  const heel = followed(opened(HEEL), seen)
  const card = followed(opened(CARD), seen)
  const syringe = followed(opened(SYRINGE), seen)
  const severe = narrow ? [] : severeWays(straight, seen)
  const left = narrow ? [] : departures([straight, heel, card, syringe], seen)
  const asked = questions([straight, card, ...left.map(({ moments }) => moments)])
  return {
    states: different([
      ...named('straight', straight),
      ...named('heel', heel),
      ...named('card', card),
      ...named('syringe', syringe),
      ...named('finger', followed(opened(FINGER))),
      ...specials(straight),
      ...askedStates(),
      ...[...asked].map(([ask, moment]) => ({ name: `ask/${ask}`, view: viewAt(moment) })),
      ...[...severe, ...left].flatMap(asStates),
    ]),
    departures: [...new Set(left.map(({ name }) => name))],
  }
}

/** What stays open to the end of a draw changes its screens no further. */
const MOST_n = 16

const asStates = ({ name, at, moments }: Departure): readonly GalleryState[] =>
  named(`${name} at ${at}`, moments.slice(0, MOST_n))

function named(way: string, moments: readonly Moment[]): readonly GalleryState[] {
  return moments.map((moment, i) => {
    const view = viewAt(moment)
    return { name: `${way}/${i} ${view.step.id}`, view }
  })
}

function different(states: readonly GalleryState[]): readonly GalleryState[] {
  const seen = new Set<string>()
  return states.filter(({ view, around, sheet }) => {
    const look = around || sheet ? JSON.stringify([view, around, sheet]) : lookOf(view)
    if (seen.has(look)) return false
    seen.add(look)
    return true
  })
}

/** What makes two screens look different: everything in sight but where the clocks stand and how far the rack is. */
function lookOf(view: DrawView): string {
  const { mainClock, otherClocks, step, choices, severe, notice, ask, labels, closed } = view
  const clocks = [mainClock, ...otherClocks].map((clock) => clock && [clock.kind, clock.state])
  const { id, title, instruction, points } = step
  const { noArmLeft, overLimit, exposure, labelsBy, heard, listening, coach, broken, elsewhere } =
    view
  const { state: hearing, advice } = listening
  const commands = choices.map(({ command }) => command)
  return JSON.stringify([
    ...[id, title, instruction, points, clocks, commands, severe, notice, ask, labels, closed],
    ...[noArmLeft, overLimit, exposure, labelsBy, heard, hearing, advice, coach, broken, elsewhere],
  ])
}
