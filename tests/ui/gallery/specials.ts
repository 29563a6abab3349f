import { createCoach } from '../../../src/app/draw/coach.ts'
import type { CoachView } from '../../../src/app/view/drawViewTypes.ts'
import { practiceSteps } from '../../../src/core/scenario/practiceSteps.ts'
import type { Via } from '../../../src/core/scenario/scenario.ts'
import { stepOf, type StepId } from '../../../src/core/protocol/steps.ts'
import { texts } from '../../support/language.ts'
import { secondCollector } from '../../support/sampleLog.ts'
import { shippedScript } from '../../support/scripts.ts'
import { after } from './askedStates.ts'
import { followed } from './followed.ts'
import type { GalleryState } from './galleryState.ts'
import { opened, tried, viewAt, waited, type Moment } from './moment.ts'
import { BOTTLES, LONG_NAMES, MANY_TUBES } from './openings.ts'

/** The longest that is said of a draw that is only looked on at. */
const ELSEWHERE = {
  text: texts.clinic.elsewhere.lost.replace('{device}', 'Chair 2'),
  takeOver: texts.clinic.elsewhere.takeOver,
}

/** The ears are held open. */
const HELD = { listening: { state: { kind: 'listening' }, level: 0.55, isHeld: true } } as const

/** What the script says at the first step that is done in that way. */
function coachAt(script: string, via: Via): CoachView {
  const { scenario } = shippedScript(script)
  const acts = practiceSteps(scenario).filter(({ act }) => act !== undefined)
  const coach = createCoach(scenario, texts.draw.coach)
  for (let n = acts.findIndex(({ act }) => act?.via === via); n > 0; n--) coach.advance()
  return coach.view()
}

/** What no single departure comes to: long waits, what stands around the draw, and draws of another kind. */
export function specials(straight: readonly Moment[]): readonly GalleryState[] {
  const at = (id: StepId): Moment => {
    const found = straight.find((moment) => stepOf(moment.state).id === id)
    if (!found) throw new Error(`The straight draw does not come to ${id}.`)
    return found
  }
  const long = followed(opened(LONG_NAMES))
  const many = followed(opened(MANY_TUBES))
  const state = (name: string, moment: Moment, more: Partial<GalleryState> = {}): GalleryState => ({
    name: `special/${name}`,
    view: viewAt(moment),
    ...more,
  })
  const filling = at('filling')
  const release = at('release')
  const fainted = after(release, { type: 'faint' })
  const bandOver = waited(release, 70_000)
  const view = viewAt(filling)
  // The longer of the two, beside English screens too.
  const inSpanish = after(filling, { type: 'choosePatientLanguage', language: 'es' })
  return [
    state('band nearly up', waited(release, 25_000)),
    state('band over', bandOver),
    state('band over for long', waited(release, 14 * 60_000)),
    state('slow flow until the band is over', waited(after(release, { type: 'slowFlow' }), 70_000)),
    state('faint with slow flow', after(release, { type: 'slowFlow' }, { type: 'faint' })),
    state('faint over the band', after(bandOver, { type: 'faint' })),
    state('faint and needlestick', after(fainted, { type: 'needlestick' })),
    state('faint for an hour and a quarter', waited(faintedOut(fainted), 4_484_000)),
    state('bleeding for an hour', waited(at('bleeding'), 3_700_000)),
    state('spin nearly due', waited(at('spin'), 80 * 60_000)),
    state('sheet', filling, { sheet: true }),
    state('sheet in an alarm', fainted, { sheet: true }),
    state('sheet over the band', bandOver, { sheet: true }),
    state('sheet with what the patient is told', inSpanish, { sheet: '.readAloud' }),
    state('sheet with the aftercare', inSpanish, { sheet: '.readAloud + .readAloud' }),
    state('sheet at the consent', at('consent'), { sheet: true }),
    state('sheet at the aftercare', after(at('aftercare'), { type: 'choosePatientLanguage', language: 'es' }), { sheet: true }),
    state('sheet of preparation', at('preparation'), { sheet: true }),
    state('interrupted with the band on', after(release, { type: 'interrupted' })),
    state('hidden page', tried(waited(release, 20_000), { type: 'noticeAway', away_ms: 20_000 }).moment),
    state('clock set', tried(release, { type: 'noticeClockStep', by_ms: 120_000 }).moment),
    state('refused by the state', tried(at('identity'), { type: 'tubeFull' }).moment),
    state('handed over', after(at('find'), { type: 'handOver', to: secondCollector })),
    state('discreet', fainted, { view: viewAt(fainted, { isDiscreet: true }), around: { settings: { discreet: true } } }),
    state('tones only', filling, { view: viewAt(filling, { isTonesOnly: true }), around: { settings: { tonesOnly: true } } }),
    state('sheet with tones only', filling, { sheet: true, view: viewAt(filling, { isTonesOnly: true }), around: { settings: { tonesOnly: true } } }),
    state('earpiece gone', filling, { around: { earTrouble: EAR_GONE } }),
    state('earpiece gone in an alarm', fainted, { view: viewAt(fainted, { isDiscreet: true }), around: { settings: { discreet: true }, earTrouble: EAR_GONE } }),
    state('heard', filling, { view: viewAt(filling, { heard: { text: 'tube complete', outcome: 'accepted', at_ms: 0 } }) }),
    state('heard and refused', filling, { view: viewAt(filling, { heard: { text: 'spinning started', outcome: 'refused', at_ms: 0 } }) }),
    state('heard unclearly', filling, { view: viewAt(filling, { heard: { text: 'something about a tube that was full', outcome: 'unclear', at_ms: 0 } }) }),
    state('too loud', filling, { view: viewAt(filling, { listening: { state: { kind: 'trouble', code: 'tooLoud' }, level: 0.9, advice: texts.voice.trouble.tooLoud.advice } }) }),
    state('listening paused', filling, { view: viewAt(filling, { listening: { state: { kind: 'paused' }, level: 0 } }) }),
    state('ears shut', filling, { around: { settings: { heldBar: true } } }),
    state('ears open', filling, { view: viewAt(filling, HELD), around: { settings: { heldBar: true } } }),
    state('ears open by a pedal', filling, { view: viewAt(filling, HELD), around: { settings: { heldKey: 'F13' } } }),
    state('ears to be held', filling, { around: { settings: { heldRequired: true } } }),
    state('asked again', filling, { view: viewAt(filling, { heard: { text: 'tube complete', outcome: 'again', at_ms: 0 } }) }),
    ...(['preparation', 'find', 'release', 'labels'] as const).map((id) => state(`ears open at ${id}`, at(id), { view: viewAt(at(id), HELD), around: { settings: { heldBar: true } } })),
    state('practice', filling, { view: viewAt(filling, { coach: coachAt('short-fill', 'write') }) }),
    state('not saved', filling, { around: { unsaved: UNSAVED } }),
    state('no sound', filling, { around: { soundTrouble: texts.voice.sound.chimesMissing } }),
    state('damaged record', filling, { view: { ...view, broken: 'Entry 14 does not follow from entry 13.' } }),
    state('on another page', filling, { view: { ...view, elsewhere: ELSEWHERE } }),
    ...(['identity', 'find', 'filling', 'labels', 'colleague'] as const).flatMap((id) => stepIn(long, id, 'long names')),
    ...(['supplies', 'tube', 'filling', 'labels', 'rack'] as const).flatMap((id) => stepIn(many, id, 'many tubes')),
    ...(['tube', 'filling', 'mix'] as const).flatMap((id) => stepIn(followed(opened(BOTTLES)), id, 'bottles')),
  ] // prettier-ignore
}

/** The longest that is said of an earpiece, with a name as browsers give them. */
const EAR_GONE = {
  what: texts.voice.ear.what.gone.replace('{name}', 'Invented Buds Pro (Bluetooth)'),
  advice: texts.voice.ear.advice.quiet,
}

const UNSAVED: NonNullable<NonNullable<GalleryState['around']>['unsaved']> = {
  since_ms: 0,
  entries: 3,
  drawIds: ['D7-20261125-0003'],
  text: 'Not saved: 3 entries since 09:00. Saving is tried again; keep this page open.',
  why: 'The storage of this browser is full.',
}

/** Everything off and out, so that the clock of the faint runs alone. */
function faintedOut(fainted: Moment): Moment {
  const way = followed(fainted)
  return way.find(({ state }) => stepOf(state).id === 'handled') ?? fainted
}

function stepIn(way: readonly Moment[], id: StepId, kind: string): readonly GalleryState[] {
  const found = way.find(({ state }) => stepOf(state).id === id)
  return found ? [{ name: `${kind}/${id}`, view: viewAt(found) }] : []
}
