import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { allergiesOf, ARMS } from '../../core/order/order.ts'
import { isMicro, plannedFill_mL, type PlannedTube } from '../../core/plan/plan.ts'
import { withLimits } from '../../core/policy/policy.ts'
import {
  answersOf,
  anyTubeIn,
  armClosedBy,
  exceptionIsOpen,
  isCapillary,
  needleSetOf,
  nextTube,
  planned,
  pressureNeeded_s,
  prickIsOpen,
  tooYoungForBandage,
  tubeInHolder,
  unmixed,
} from '../../core/protocol/facts.ts'
import {
  antisepticFor,
  hasCulture,
  isForCareOnly,
  mustBeNamed,
  wantsNoAlcohol,
} from '../../core/protocol/antisepticChoice.ts'
import {
  bloodTaken,
  mayTake_mL,
  overLimit,
  pullsOverLimit,
} from '../../core/protocol/bloodTaken.ts'
import { lancetDepth } from '../../core/protocol/lancetDepth.ts'
import { unhandled } from '../../core/protocol/handled.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import {
  hasSyringe,
  isPulling,
  syringeWants_mL,
  toPull_mL,
  wantsLargerSyringe,
  wantsSyringe,
} from '../../core/protocol/syringe.ts'
import { syringeFor } from '../../core/plan/syringeNeed.ts'
import { stepOf, toSpin, type StepId } from '../../core/protocol/steps.ts'
import type { DrawTexts, SetTexts } from '../site/drawTexts.ts'
import type { StepWords } from '../site/words.ts'
import { coverageLines } from './coverageLines.ts'
import type { StepView } from './drawViewTypes.ts'
import { shownPrompt, stepPromptKey } from './promptKeys.ts'
import { tubeAbout } from './tubeAbout.ts'
import type { ViewTexts } from './viewTexts.ts'

/** The step of the moment with what is to be said and kept in mind. */
export function stepView(s: DrawState, from: ViewTexts): StepView {
  const { words, prompts } = from
  const row = stepOf(s)
  const own = [...firstAid(s, from), ...particulars(s, row.id, from)]
  return defined({
    id: row.id,
    title: words.steps[row.id].title,
    instruction: shownPrompt(stepPromptKey(s, row, prompts), prompts),
    about: tubeAbout(s, row.id, from),
    points: [...own, ...generalPoints(s, row.id, from)],
    // What holds for this patient is never left for later.
    shown_n: OWN_ONLY.has(row.id) ? own.length : Math.max(1, own.length),
  })
}

/** Beside what a colleague does for the patient, until it is settled; before that it is the alarm itself. */
const firstAid = (s: DrawState, { texts }: ViewTexts): readonly string[] =>
  prickIsOpen(s) && !exceptionIsOpen(s, 'needlestick') ? [texts.draw.firstAid] : []

/** Steps at which more has to be read than an instruction: their reminders come with "say again". */
const OWN_ONLY: ReadonlySet<StepId> = new Set(['identity', 'wristband', 'vein', 'labels'])

/** The needle of a syringe is away once its device is on: then the two go into the box and no whole set. */
function generalPoints(s: DrawState, step: StepId, { words, texts }: ViewTexts): readonly string[] {
  const { syringePoints } = texts.draw
  if (hasSyringe(s) && step === 'release') return syringePoints.release
  if (s.puncture.transfer && step === 'sharps') return syringePoints.sharps
  return pointsOf(s, words.steps[step])
}

/** The points of the words file with this draw's limits in them. */
export const pointsOf = (s: DrawState, { points }: StepWords): readonly string[] =>
  points.map((point) => withLimits(point, s.opened.policy))

/** Reminders that depend on this patient and this tube, above the general ones. */
function particulars(s: DrawState, step: StepId, from: ViewTexts): readonly string[] {
  const { draw } = from.texts
  switch (step) {
    case 'preparation':
      return answerLines(s, draw)
    case 'identity':
      return tooYoungForBandage(s) ? [draw.capillary.infant] : []
    case 'lance':
      return [draw.capillary.depth[lancetDepth(s)]]
    case 'hands':
      return answersOf(s).latexAllergy ? [draw.answers.latexHands] : []
    case 'find':
    case 'side':
    case 'site':
      return [
        ...restrictionLines(s, draw),
        ...(answersOf(s).faintedBefore ? [draw.answers.fainted] : []),
      ]
    case 'cleanse':
      return cleanserLines(s, draw)
    case 'dry':
      return hasCulture(s) ? draw.cleansing.bottles : []
    case 'supplies':
    case 'set':
      return isCapillary(s)
        ? [draw.capillary.depth[lancetDepth(s)]]
        : [...microLines(s, from), ...syringeLines(s, draw), ...ofSet(s, draw).ready]
    case 'needle':
      return ofSet(s, draw).needle
    case 'flash':
      return ofSet(s, draw).firstBlood
    case 'tube':
      return [
        ...tubeLines(planned(s, nextTube(s)?.id ?? ''), draw),
        ...bloodLines(s, draw),
        ...microLines(s, from),
        ...(isMicro(planned(s, nextTube(s)?.id ?? '')) ||
        isCapillary(s) ||
        anyTubeIn(s, s.puncture.number) ||
        s.puncture.flash ||
        hasSyringe(s)
          ? []
          : ofSet(s, draw).firstBlood),
      ]
    case 'pull':
      return pullLines(s, draw)
    case 'drops':
    case 'vacuum':
    case 'filling':
    case 'release':
    case 'takeOff':
      return tubeLines(planned(s, tubeInHolder(s)?.id ?? ''), draw)
    case 'handling':
      return unhandled(s).map(({ id }) => {
        const tube = planned(s, id)
        const marks = (tube?.handling ?? []).map((mark) => from.words.handling[mark]).join(', ')
        return fillText(draw.handling, { name: tube?.name ?? id, marks })
      })
    case 'mix':
      return mixLines(planned(s, unmixed(s)[0]?.id ?? ''), draw)
    case 'provider':
    case 'again':
      return coverageLines(s, from)
    case 'bleeding':
      if (isCapillary(s))
        return [draw.capillary.press, ...(tooYoungForBandage(s) ? [draw.capillary.noBandage] : [])]
      return [fillText(draw.pressure, { minutes: pressureNeeded_s(s) / 60 })]
    case 'aftercare': {
      if (tooYoungForBandage(s)) return [draw.aftercare.infant]
      return [withLimits(draw.aftercare[isCapillary(s) ? 'skin' : 'arm'], s.opened.policy)]
    }
    case 'spin':
      return spinLines(s, draw)
    default:
      return []
  }
}

/** What the tubes that wait for the spin are: only serum clots first. */
function spinLines(s: DrawState, { spin }: DrawTexts): readonly string[] {
  const clots = toSpin(s).map((id) => planned(s, id)?.clot_min !== undefined)
  return [
    ...(clots.includes(true) ? [spin.serum] : []),
    ...(clots.includes(false) ? [spin.plasma] : []),
  ]
}

function answerLines(s: DrawState, { answers }: DrawTexts): readonly string[] {
  const preparation = answersOf(s)
  const { fasted_h: hours, anticoagulant, faintedBefore } = preparation
  return [
    hours === undefined ? answers.fastingNotAsked : fillText(answers.fasted, { hours }),
    answers.anticoagulant[anticoagulant],
    latexLine(preparation.latexAllergy, answers),
    ...allergyLines(s, answers),
    ...(faintedBefore === undefined ? [answers.faintedNotAsked] : []),
    ...(faintedBefore ? [answers.fainted] : []),
  ]
}

function allergyLines(s: DrawState, answers: DrawTexts['answers']): readonly string[] {
  const held = allergiesOf(answersOf(s).antisepticAllergy)
  return held.length === 0
    ? [answers.antisepticNotAsked]
    : held.map((allergy) => answers.antiseptic[allergy])
}

/** What to clean with, and why not with the usual. */
function cleanserLines(s: DrawState, { cleansing, answers }: DrawTexts): readonly string[] {
  const antiseptic = cleansing.name[antisepticFor(s)]
  const isFree = answersOf(s).antisepticAllergy === 'none'
  return [
    mustBeNamed(s) ? cleansing.which : fillText(cleansing.take, { antiseptic }),
    ...(isFree ? [] : allergyLines(s, answers)),
    ...(isForCareOnly(s, 'chlorhexidineAlcohol') ? [cleansing.infant] : []),
    ...(wantsNoAlcohol(s) ? [cleansing.noAlcohol] : []),
    ...(hasCulture(s) ? [cleansing.culture] : []),
  ]
}

function latexLine(allergic: boolean | undefined, answers: DrawTexts['answers']): string {
  if (allergic === undefined) return answers.latexNotAsked
  return allergic ? answers.latex : answers.noLatex
}

const ofSet = (s: DrawState, draw: DrawTexts): SetTexts =>
  (hasSyringe(s) ? draw.ofSyringe : draw.ofSet)[needleSetOf(s).kind]

/** Tubes without a vacuum and no syringe: what the plan says of them. */
function microLines(s: DrawState, { texts }: ViewTexts): readonly string[] {
  return wantsSyringe(s) ? [fillText(texts.plan.notices.bring.syringe)] : []
}

/** Which syringe is to be ready, and whether it holds what is planned. */
function syringeLines(s: DrawState, { syringe }: DrawTexts): readonly string[] {
  const { syringe_mL } = needleSetOf(s)
  if (isCapillary(s) || syringe_mL === undefined) return []
  const need_mL = syringeWants_mL(s)
  const fit_mL = syringeFor(need_mL)
  if (!wantsLargerSyringe(s)) return [fillText(syringe.size, { syringe_mL, need_mL })]
  return fit_mL === undefined
    ? [fillText(syringe.none, { need_mL })]
    : [fillText(syringe.small, { syringe_mL, need_mL, fit_mL })]
}

/** How far the plunger is pulled. */
function pullLines(s: DrawState, { syringe }: DrawTexts): readonly string[] {
  if (!isPulling(s)) return []
  const pull_mL = toPull_mL(s)
  return [
    fillText(syringe.pull, { pull_mL }),
    ...(wantsLargerSyringe(s) ? [fillText(syringe.less, { need_mL: syringeWants_mL(s) })] : []),
    ...(pullsOverLimit(s, pull_mL) ? [syringe.over] : []),
  ]
}

function restrictionLines(s: DrawState, draw: DrawTexts): readonly string[] {
  return ARMS.flatMap((arm) => {
    const why = armClosedBy(s, arm)
    return why ? [fillText(draw.notThisArm[arm], { why: draw.restriction[why] })] : []
  })
}

function tubeLines(tube: PlannedTube | undefined, draw: DrawTexts): readonly string[] {
  if (!tube) return []
  const least_mL = Number(tube.least_mL.toFixed(2))
  return [fillText(draw.tube, { name: tube.name, fill_mL: plannedFill_mL(tube), least_mL })]
}

/** Blood taken so far against what may be, once some of it is lost. */
function bloodLines(s: DrawState, draw: DrawTexts): readonly string[] {
  const most_mL = mayTake_mL(s)
  const taken_mL = bloodTaken(s).most_mL
  if (s.lost.length === 0 || most_mL === undefined) return []
  const next = overLimit(s, nextTube(s)?.id) ? [draw.overLimit] : []
  return [
    fillText(draw.bloodSoFar, {
      taken_mL: Number(taken_mL.toFixed(2)),
      most_mL: Number(most_mL.toFixed(2)),
    }),
    ...next,
  ]
}

function mixLines(tube: PlannedTube | undefined, draw: DrawTexts): readonly string[] {
  if (!tube) return []
  const { name, inversions } = tube
  const { min: least, max: most } = inversions
  return [
    least === most
      ? fillText(draw.mixing, { name, turns: least })
      : fillText(draw.mixingRange, { name, least, most }),
  ]
}
