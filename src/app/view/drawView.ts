import { defined } from '../../core/basics/defined.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { VEINS } from '../../core/protocol/events.ts'
import { overLimit } from '../../core/protocol/bloodTaken.ts'
import {
  awaitsAccession,
  labelNumber,
  isCapillary,
  needleSetOf,
  nextTube,
  noArmLeft,
  planned,
  specimens,
} from '../../core/protocol/facts.ts'
import { openCommands } from '../../core/protocol/openCommands.ts'
import { answersTo, yesDoesHarm, type Ask } from '../../core/protocol/asks.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import { dueOf_ms } from '../../core/series/due.ts'
import { timeOfDay, dayMonthYear } from '../../core/time/format.ts'
import { stampAfter, type Reading } from '../../core/time/stamp.ts'
import { armViews } from './armView.ts'
import { choiceView, safetyChoices, stepChoices } from './choiceViews.ts'
import { clockViews } from './clockViews.ts'
import type {
  AskView,
  CoachView,
  DrawView,
  HeardView,
  LabelView,
  ListeningView,
  Notice,
} from './drawViewTypes.ts'
import { doseAsked } from './doseAsked.ts'
import { mainClock } from './mainClock.ts'
import { rulerView } from './rulerView.ts'
import { rackViews } from './rackViews.ts'
import { isSevere } from '../../core/protocol/exceptionTable.ts'
import { codedPrompt, shownPrompt } from './promptKeys.ts'
import { patientView } from './patientWords.ts'
import { severeView } from './severeView.ts'
import { stepView } from './stepView.ts'
import type { ViewTexts } from './viewTexts.ts'

/** What is shown besides the state of the draw. */
export interface ShownView {
  readonly listening: ListeningView
  readonly heard?: HeardView | undefined
  readonly notice?: Notice | undefined
  readonly ask?: Ask | undefined
  /** The tube that the question is about. */
  readonly askTube?: string | undefined
  readonly coach?: CoachView | undefined
  /** Patients hear what is spoken, and alarming things are a code. */
  readonly isDiscreet?: boolean
  /** Nothing is spoken: prompts are tones. */
  readonly isTonesOnly?: boolean
}

/**
 * The draw screen for a state at a moment. Pure. It is worked out whole on every beat: what may be said is found by
 * deciding on each command there is, which costs less than keeping it up to date would.
 */
export function drawView(s: DrawState, now: Reading, texts: ViewTexts, shown: ShownView): DrawView {
  const from = { ...texts, isDiscreet: shown.isDiscreet === true }
  const { opened, closed } = s
  const { words } = from
  const open = openCommands(s, stampAfter(s.last.at, now))
  const clocks = clockViews(s, now, from)
  const main = mainClock(s, clocks)
  return defined({
    drawId: opened.drawId,
    invented: opened.invented,
    ...patientViews(s, from),
    collectorName: s.collector.name,
    patient: patientView(s),
    doseAsked: doseAsked(s),
    sitting: sittingText(s, now.wall_ms, from),
    step: stepView(s, from),
    mainClock: main,
    otherClocks: clocks.filter((clock) => clock !== main),
    choices: stepChoices(stepOf(s).id, open, from),
    always: safetyChoices(from),
    happened: open.happened.map((key) => choiceView(key, from, {})),
    severe: severeView(s, from),
    overLimit: overLimit(s, nextTube(s)?.id) || undefined,
    exposure: s.seen.includes('needlestick') || undefined,
    notice: shown.notice,
    coded: shown.isDiscreet ? codedNow(s, from, shown) : undefined,
    isTonesOnly: shown.isTonesOnly,
    otherVoice: choiceView(shown.isTonesOnly ? 'wordsAgain' : 'tonesOnly', from, {}),
    ask: shown.ask && askView(s, shown.ask, shown.askTube, from),
    noArmLeft: ['find', 'site'].includes(stepOf(s).id) && noArmLeft(s),
    needleSet: s.puncture.needleIn || closed || isCapillary(s) ? undefined : needleSetOf(s),
    rack: rackViews(s, now, from),
    ruler: rulerView(s, from),
    arms: armViews(s, from),
    labels: labelViews(s),
    labelsBy: opened.labelsBy,
    heard: shown.heard,
    listening: shown.listening,
    coach: shown.coach,
    closed:
      closed &&
      defined({
        outcome: closed.outcome,
        text: words.outcomes[closed.outcome],
        script: opened.script,
      }),
  })
}

/** Of a question, else of an alarm, else of what is told, else of the step: what stands large. */
function codedNow(
  s: DrawState,
  { prompts }: ViewTexts,
  { ask, notice }: ShownView,
): string | undefined {
  if (ask) return codedPrompt(`ask.${ask}`, prompts)
  const severe = s.exceptions.findLast(({ kind }) => isSevere(kind))
  if (severe) return codedPrompt(`exception.${severe.kind}`, prompts)
  if (notice?.large !== undefined) return notice.coded
  return codedPrompt(`step.${stepOf(s).id}`, prompts)
}

function patientViews(
  { opened: { patient } }: DrawState,
  { texts }: ViewTexts,
): Pick<DrawView, 'patientLine' | 'identifiers'> {
  const { line, fullName, birthDate, recordNumber } = texts.draw.patient
  const born = dayMonthYear(patient.birthDate)
  return {
    patientLine: fillText(line, { name: patient.fullName, birthDate: born }),
    identifiers: [
      { label: fullName, value: patient.fullName },
      { label: birthDate, value: born },
      { label: recordNumber, value: patient.recordNumber },
    ],
  }
}

function sittingText(
  s: DrawState,
  now_ms: number,
  { texts, words }: ViewTexts,
): string | undefined {
  const { bare, due, notAt, beforeDose, doseDue, askDose } = texts.draw.sitting
  const parts = (s.opened.sitting?.parts ?? []).map((part) => {
    const { point, number, of } = part
    const due_ms = dueOf_ms(part, s.moments)
    if (due_ms === undefined) {
      const isOpen = part.from === 'nextDose'
      return fillText(isOpen ? askDose : bare, { point, number, of })
    }
    const { offset_min } = s.openedAt
    const clock = (at_ms: number): string => timeOfDay({ at_ms, offset_min })
    const dose = s.moments.findLast(({ moment }) => moment === 'nextDose')
    if (part.from !== 'nextDose' || !dose)
      return fillText(due, { point, number, of, at: clock(due_ms) })
    // Once its time has passed it may have been given, and the sample is no trough any more.
    const text = now_ms > dose.at_ms ? doseDue : beforeDose
    return fillText(text, { point, number, of, at: clock(dose.at_ms) })
  })
  if (parts.length === 0) return undefined
  const sitting = parts.join('; ')
  const sites = (s.opened.sitting?.sitesBefore ?? []).map(({ arm, vein }) => {
    const place = VEINS.find((known) => known === vein)
    const named = words.commands[`chooseArm:${arm}`]
    return place ? `${named}, ${words.commands[`chooseVein:${place}`]}` : named
  })
  return sites.length > 0 ? fillText(notAt, { sitting, sites: sites.join('; ') }) : sitting
}

function askView(
  s: DrawState,
  ask: Ask,
  tubeId: string | undefined,
  from: ViewTexts & Pick<ShownView, 'isDiscreet'>,
): AskView {
  const tube = tubeId === undefined ? '' : (planned(s, tubeId)?.name ?? tubeId)
  const harms = yesDoesHarm(ask)
  const answers = from.words.answers[ask]
  return {
    large: shownPrompt(`ask.${ask}`, from.prompts),
    question: fillText(from.words.asks[ask], { tube }),
    // A yes that does harm has no key of its own: it takes two, one to reach it and one to press it. Where the hand
    // goes by itself stands the answer that does none.
    yes: {
      ...choiceView(
        'confirmYes',
        from,
        harms ? { place: 'answer' } : { key: 'Space', place: 'main' },
      ),
      label: answers.yes,
    },
    no: {
      ...choiceView('confirmNo', from, { key: 'Backspace', place: harms ? 'main' : 'answer' }),
      label: answers.no,
    },
    others: answersTo(ask).map((key) => choiceView(key, from, { place: 'answer' })),
  }
}

/** The tubes that need a label, each as its label stands. */
export function labelViews(s: DrawState): readonly LabelView[] {
  return specimens(s).map(({ id }) => ({
    tubeId: id,
    tubeName: planned(s, id)?.name ?? id,
    number: awaitsAccession(s, id) ? undefined : labelNumber(s, id),
    readBack: s.readBack[id] === true,
  }))
}
