import { noticeOf } from '../../../src/app/draw/noticeOf.ts'
import { drawView, type ShownView } from '../../../src/app/view/drawView.ts'
import type { DrawView, Notice } from '../../../src/app/view/drawViewTypes.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import type { Decision } from '../../../src/core/protocol/decision.ts'
import { questionOf, type Question } from '../../../src/core/protocol/dialog.ts'
import { dueCues, nextCueIn_ms } from '../../../src/core/protocol/dueCues.ts'
import type { LogEntry, Source } from '../../../src/core/protocol/entry.ts'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { tubeAsked } from '../../../src/core/protocol/settleUnlabelled.ts'
import type { DrawState } from '../../../src/core/protocol/state.ts'
import { openDraw, transition, type Seal } from '../../../src/core/protocol/transition.ts'
import type { Reading } from '../../../src/core/time/stamp.ts'
import { shortTestName } from '../../../src/app/view/shortTestName.ts'
import type { ViewTexts } from '../../../src/app/view/viewTexts.ts'
import { shippedSite } from '../../support/site.ts'
import { SIMULATED_START } from '../../../src/core/scenario/simulatedDraw.ts'

/** Nothing of the chain is shown on the draw screen. */
const unsealed: Seal = (entry) => ({ ...entry, previous: '', hash: '' })

/** A draw at one moment with what the screen adds to its state. A moment never changes: what is done gives another. */
export interface Moment {
  readonly state: DrawState
  readonly now: Reading
  readonly notice?: Notice | undefined
  readonly question?: Question | undefined
}

export function opened(opening: DrawOpened): Moment {
  return { state: openDraw(opening, SIMULATED_START, unsealed).state, now: SIMULATED_START }
}

/** The moment after a command, and what was decided; where nothing was recorded, the question or the refusal shows. */
export function tried(
  moment: Moment,
  command: Command,
  { source = 'touch', confirmed = false }: { source?: Source; confirmed?: boolean } = {},
): { readonly moment: Moment; readonly decision: Decision } {
  const { state: before, now } = moment
  const { decision, entries, state } = transition(
    before,
    command,
    { now, source, confirmed },
    unsealed,
  )
  const { impossible } = shippedSite.words
  const notice =
    decision.kind === 'impossible'
      ? ({ tone: 'info', text: impossible[decision.why] } as const)
      : noticeAfter(moment, state, entries)
  return {
    decision,
    moment: { state, now, notice, question: questionOf(decision, { command, source }) },
  }
}

/** What is told after a change; what a clock does leaves standing what was told before it. */
function noticeAfter({ state, notice }: Moment, after: DrawState, entries: readonly LogEntry[]) {
  const change = { before: state, after, entries, foreign: 0 }
  const byClock = entries.every(({ source }) => source === 'clock')
  return noticeOf(change, shippedSite) ?? (byClock ? notice : undefined)
}

/** Lets time pass and gives every cue at its moment. */
export function waited(from: Moment, by_ms: number): Moment {
  let moment = cued(from)
  let left_ms = by_ms
  while (left_ms > 0) {
    const step_ms = Math.min(
      Math.max(1, nextCueIn_ms(moment.state, moment.now) ?? left_ms),
      left_ms,
    )
    const { wall_ms, mono_ms } = moment.now
    const now = { ...moment.now, wall_ms: wall_ms + step_ms, mono_ms: mono_ms + step_ms }
    left_ms -= step_ms
    moment = cued({ ...moment, now })
  }
  return moment
}

function cued(moment: Moment): Moment {
  return dueCues(moment.state, moment.now).reduce(
    (at, due) => tried(at, { type: 'giveCue', ...due }, { source: 'clock' }).moment,
    moment,
  )
}

const names = new Map(shippedSite.catalogue.tests.map(({ code, name }) => [code, name]))
const viewTexts: ViewTexts = {
  ...shippedSite,
  testName: (code) => names.get(code) ?? code,
  shortTestName: shortTestName(shippedSite.catalogue),
}

const LISTENING: ShownView['listening'] = { state: { kind: 'listening' }, level: 0.55 }

/** The screen at a moment. */
export function viewAt(moment: Moment, shown: Partial<ShownView> = {}): DrawView {
  return drawView(moment.state, moment.now, viewTexts, {
    listening: LISTENING,
    notice: moment.notice,
    ask: moment.question?.ask,
    askTube: tubeAsked(moment.state, moment.question?.command),
    ...shown,
  })
}
