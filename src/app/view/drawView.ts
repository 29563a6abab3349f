import type { PlanTexts } from '../../core/plan/planTexts.ts'
import { ARMS } from '../../core/order/order.ts'
import type { PlannedTube } from '../../core/plan/plan.ts'
import type { Ask } from '../../core/protocol/rules.ts'
import type { ClockKind } from '../../core/protocol/clockTable.ts'
import { EXCEPTION_TABLE, isSevere } from '../../core/protocol/exceptionTable.ts'
import {
  bodyIsSafe,
  nextTube,
  planned,
  pressureNeeded_s,
  specimens,
  tubeInHolder,
  unmixed,
} from '../../core/protocol/facts.ts'
import { defined } from '../../core/basics/defined.ts'
import { withLimits } from '../../core/policy/policy.ts'
import { openCommands } from '../../core/protocol/openCommands.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { STEP_IDS, stepOf, type StepId } from '../../core/protocol/steps.ts'
import { specimenNumber } from '../../core/protocol/specimenNumber.ts'
import { dayMonthYear } from '../../core/time/format.ts'
import { stampAfter, type Reading } from '../../core/time/stamp.ts'
import { choiceView, safetyChoices, stepChoices } from './choiceViews.ts'
import { clockViews } from './clockViews.ts'
import { coverageLines } from './coverageLines.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import { shownPrompt, stepPromptKey } from './promptKeys.ts'
import { rackViews } from './rackViews.ts'
import type {
  AskView,
  ClockView,
  CoachView,
  DrawView,
  HeardView,
  LabelView,
  ListeningView,
  Notice,
  SevereView,
  StepView,
} from './drawViewTypes.ts'
import type { Prompts, StepWords, Words } from '../site/words.ts'

/** The words of the screen. */
export interface ViewTexts {
  readonly words: Words
  readonly prompts: Prompts
  readonly phrases: PhraseBook
  readonly testName: (code: string) => string
  readonly planTexts: PlanTexts
}

/** What is shown besides the state of the draw. */
export interface ShownView {
  readonly listening: ListeningView
  readonly heard?: HeardView | undefined
  readonly notice?: Notice | undefined
  readonly ask?: Ask | undefined
  readonly coach?: CoachView | undefined
}

/** The draw screen for a state at a moment. Pure. */
export function drawView(s: DrawState, now: Reading, texts: ViewTexts, shown: ShownView): DrawView {
  const { opened, closed } = s
  const open = openCommands(s, stampAfter(s.last.at, now))
  const birthDate = dayMonthYear(opened.patient.birthDate)
  const clocks = clockViews(s, now, texts.words)
  const main = mainClock(s, clocks)
  return defined({
    drawId: opened.drawId,
    invented: opened.invented,
    patientLine: `${opened.patient.fullName}, born ${birthDate}`,
    identifiers: [
      { label: 'Full name', value: opened.patient.fullName },
      { label: 'Birth date', value: birthDate },
      { label: 'Record number', value: opened.patient.recordNumber },
    ],
    collectorName: s.collector.name,
    step: stepView(s, texts),
    mainClock: main,
    otherClocks: clocks.filter((clock) => clock !== main),
    choices: stepChoices(open, texts),
    always: safetyChoices(texts),
    happened: open.happened.map((key) => choiceView(key, texts, {})),
    severe: severeView(s, texts),
    notice: shown.notice,
    ask: shown.ask && askView(shown.ask, texts),
    rack: rackViews(s, texts.words, texts.testName),
    labels: labelViews(s),
    heard: shown.heard,
    listening: shown.listening,
    coach: shown.coach,
    closed: closed && {
      outcome: closed.outcome,
      text: texts.words.outcomes[closed.outcome] ?? closed.outcome,
    },
  })
}

/** The band comes before everything; then what the step is waiting for. */
function mainClock(s: DrawState, clocks: readonly ClockView[]): ClockView | undefined {
  const awaited = CLOCK_OF_STEP[stepOf(s).id]
  const rank = ({ kind }: ClockView): number => {
    if (kind === awaited) return Math.min(AWAITED, MAIN_RANK[kind])
    if (kind === 'clot' && !s.closed) return NEVER
    return MAIN_RANK[kind]
  }
  const first = clocks.reduce((best, clock) => Math.min(best, rank(clock)), NEVER)
  return first === NEVER ? undefined : clocks.find((clock) => rank(clock) === first)
}

const AWAITED = 1
const NEVER = Infinity

/** Which clock is the big one: the lower the number the sooner. Clotting only once the draw is closed. */
const MAIN_RANK: Readonly<Record<ClockKind, number>> = {
  band: 0,
  fill: 2,
  mix: 3,
  pressure: 4,
  watch: 5,
  faint: 6,
  drying: 7,
  rest: 8,
  flash: 9,
  clot: 10,
  exposure: NEVER,
  spinBy: NEVER,
}

const CLOCK_OF_STEP: Readonly<Partial<Record<StepId, ClockKind>>> = {
  band: 'rest',
  dry: 'drying',
  mix: 'mix',
  spin: 'clot',
}

/** Steps of a draw in which nothing goes wrong, for counting; what is off this path counts as the step before it. */
const STRAIGHT_PATH: readonly StepId[] = [
  'identity',
  'consent',
  'preparation',
  'supplies',
  'hands',
  'site',
  'vein',
  'cleanse',
  'dry',
  'band',
  'needle',
  'flash',
  'tube',
  'filling',
  'mix',
  'lastTube',
  'needleOut',
  'shield',
  'sharps',
  'bleeding',
  'bandage',
  'labels',
  'aftercare',
  'rack',
]

function placeOnPath(step: StepId): number {
  const on = STRAIGHT_PATH.indexOf(step)
  if (on >= 0) return on + 1
  const order = (id: StepId): number => STEP_IDS.indexOf(id)
  return Math.max(1, STRAIGHT_PATH.filter((id) => order(id) < order(step)).length)
}

function stepView(s: DrawState, texts: ViewTexts): StepView {
  const { words, prompts } = texts
  const row = stepOf(s)
  const text = words.steps[row.id]
  return {
    id: row.id,
    number: placeOnPath(row.id),
    of: STRAIGHT_PATH.length,
    title: text?.title ?? row.id,
    instruction: shownPrompt(stepPromptKey(s, row, prompts), prompts),
    points: [...particulars(s, row.id, texts), ...pointsOf(s, text)],
  }
}

/** Reminders that depend on this patient and this tube, above the general ones. */
function particulars(
  s: DrawState,
  step: StepId,
  { testName, planTexts }: ViewTexts,
): readonly string[] {
  const answers = s.opened.preparation
  switch (step) {
    case 'preparation':
      return [
        answers.fasted_h === undefined ? 'Fasting: not asked' : `Fasted: ${answers.fasted_h} h`,
        `Blood thinner: ${answers.anticoagulant}`,
        answers.latexAllergy
          ? 'Latex allergy: yes, latex-free gloves and band'
          : 'Latex allergy: none stated',
        ...(answers.faintedBefore ? ['Fainted before: let the patient lie down'] : []),
      ]
    case 'hands':
      return answers.latexAllergy ? ['Latex allergy: latex-free gloves and band'] : []
    case 'site':
      return ARMS.flatMap((arm) =>
        answers.restrictions[arm] ? [`Not the ${arm} arm: ${answers.restrictions[arm]}`] : [],
      )
    case 'tube':
      return tubeLine(planned(s, nextTube(s)?.id ?? ''))
    case 'filling':
    case 'release':
    case 'takeOff':
      return tubeLine(planned(s, tubeInHolder(s)?.id ?? ''))
    case 'mix':
      return mixLine(planned(s, unmixed(s)[0]?.id ?? ''))
    case 'again':
      return coverageLines(s, testName, planTexts)
    case 'bleeding':
      return [`Pressure asked for: ${pressureNeeded_s(s) / 60} min`]
    default:
      return []
  }
}

const tubeLine = (tube: PlannedTube | undefined): readonly string[] =>
  tube
    ? [`${tube.name}, ${tube.nominal_mL} mL, at least ${Number(tube.least_mL.toFixed(2))} mL`]
    : []

function mixLine(tube: PlannedTube | undefined): readonly string[] {
  if (!tube) return []
  const { min, max } = tube.inversions
  return [`${tube.name}: ${min === max ? min : `${min} to ${max}`} times over and back`]
}

function severeView(s: DrawState, { words }: ViewTexts): SevereView | undefined {
  const open = s.exceptions.filter(({ kind }) => isSevere(kind)).at(-1)
  const text = open && words.exceptions[open.kind]
  if (!open || !text) return undefined
  const stillToDo = EXCEPTION_TABLE[open.kind].endsPuncture && !bodyIsSafe(s)
  const step = words.steps[stepOf(s).id]?.title ?? ''
  return {
    kind: open.kind,
    title: text.title,
    instruction: text.instruction,
    points: [...(stillToDo ? [`Now: ${step}`] : []), ...pointsOf(s, text)],
  }
}

/** The points of the words file with this draw's limits in them. */
const pointsOf = (s: DrawState, text: StepWords | undefined): readonly string[] =>
  (text?.points ?? []).map((point) => withLimits(point, s.opened.policy))

function askView(ask: Ask, texts: ViewTexts): AskView {
  return {
    question: texts.words.asks[ask] ?? ask,
    yes: choiceView('confirmYes', texts, { key: 'Space', main: true }),
    no: choiceView('confirmNo', texts, { key: 'Backspace' }),
  }
}

function labelViews(s: DrawState): readonly LabelView[] {
  return specimens(s).map(({ id }) => ({
    tubeId: id,
    tubeName: planned(s, id)?.name ?? id,
    specimenNumber: specimenNumber(s.opened.drawId, id),
    readBack: s.readBack[id] === true,
  }))
}
