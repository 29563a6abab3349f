import type { Command } from '../../../src/core/protocol/commands.ts'
import { stepOf, type StepId } from '../../../src/core/protocol/steps.ts'
import { followed } from './followed.ts'
import type { GalleryState } from './galleryState.ts'
import { opened, tried, viewAt, type Moment } from './moment.ts'
import { HEEL, SIX_TUBES } from './openings.ts'

/** A draw that goes on as the screen asks until it comes to a step for the first time. */
function until(from: Moment, id: StepId): Moment {
  const found = followed(from).find(({ state }) => stepOf(state).id === id)
  if (!found) throw new Error(`This draw does not come to ${id}.`)
  return found
}

/** Commands one after another, each question answered with yes. */
export const after = (moment: Moment, ...commands: readonly Command[]): Moment =>
  commands.reduce((at, command) => tried(at, command, { confirmed: true }).moment, moment)

/** What takes several departures to come to: questions about labels and blood, and two tries at a heel. */
export function askedStates(): readonly GalleryState[] {
  const state = (name: string, moment: Moment): GalleryState => ({ name, view: viewAt(moment) })
  const asked = (name: string, moment: Moment, command: Command): GalleryState =>
    state(`ask/${name}`, tried(moment, command).moment)
  const laboratory = until(opened({ ...SIX_TUBES, labelsBy: 'laboratory' }), 'labels')
  const take = (tubeId: string, usedIn?: string): Command => ({ type: 'takeAccession', tubeId, text: '26 0417 8831', ...(usedIn && { usedIn }) }) // prettier-ignore
  return [
    state('special/labels of the laboratory', laboratory),
    state('special/labels of the laboratory, one taken', after(laboratory, take('t1'))),
    asked('accessionTwice', after(laboratory, take('t1')), take('t2')),
    asked('accessionElsewhere', laboratory, take('t1', 'D7-20261125-0001')),
    asked('afterFaint', until(after(until(opened(SIX_TUBES), 'release'), { type: 'faint' }), 'again'), { type: 'tryAgain' }),
    ...overLimit(asked, state),
    ...twoTries(),
  ] // prettier-ignore
}

/** A tube breaks, and no more blood may be taken than was planned. */
function overLimit(
  asked: (name: string, moment: Moment, command: Command) => GalleryState,
  state: (name: string, moment: Moment) => GalleryState,
): readonly GalleryState[] {
  const { plan } = SIX_TUBES
  const blood = { ...plan.blood, limit_mL: plan.blood.draw_mL }
  const limited = opened({ ...SIX_TUBES, plan: { ...plan, blood } })
  const mixing = followed(limited).filter(({ state }) => stepOf(state).id === 'mix')
  const last = mixing.at(-1)
  if (!last) throw new Error('No tube of this draw is mixed.')
  const broken = after(last, { type: 'droppedTube' })
  return [
    asked('overLimit', broken, { type: 'tubeOn' }),
    state('special/over the blood limit', broken),
  ]
}

/** No blood at the first try nor at the second. */
function twoTries(): readonly GalleryState[] {
  const none = (from: Moment): readonly Moment[] =>
    followed(after(until(from, 'wipe'), { type: 'pressureOn' }))
  const again = none(opened(HEEL)).find(({ state }) => stepOf(state).id === 'again')
  if (!again) return []
  const second = after(again, { type: 'tryAgain' })
  const side = tried(until(second, 'side'), { type: 'chooseSide', arm: 'left' }).moment
  const shown = none(second).map((moment, i) => {
    const view = viewAt(moment)
    return { name: `two tries at a heel/${i} ${view.step.id}`, view }
  })
  return [{ name: 'ask/samePlace', view: viewAt(side) }, ...shown]
}
