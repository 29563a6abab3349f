import { tubeAsked } from '../../core/protocol/settleUnlabelled.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { isSteering } from '../../core/protocol/commandTable.ts'
import type { Command } from '../../core/protocol/commands.ts'
import { carriedOut, questionOf, type Given, type Question } from '../../core/protocol/dialog.ts'
import type { DrawLog } from '../../core/protocol/entry.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import type { Plan } from '../../core/plan/plan.ts'
import type { Sound } from '../../ports/sound.ts'
import { codedPrompt } from '../view/promptKeys.ts'
import { drawView, type ShownView } from '../view/drawView.ts'
import type { ViewTexts } from '../view/viewTexts.ts'
import type { DrawView, Notice } from '../view/drawViewTypes.ts'
import type { Texts } from '../site/texts.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import type { StorageTexts } from '../site/storageTexts.ts'
import type { Coach } from './coach.ts'
import { createCueTimer } from './cueTimer.ts'
import type { DrawChannel } from './drawChannel.ts'
import {
  openDrawSession,
  resumeDrawSession,
  type DrawChange,
  type DrawSession,
  type DrawSessionDeps,
} from './drawSession.ts'
import { effectsOf } from './effects.ts'
import { startHeartbeat } from './heartbeat.ts'
import { noticeOf } from './noticeOf.ts'
import { createPrompter } from './prompter.ts'
import { createSteering } from './steering.ts'

/** Why what is still missing is planned anew. */
type PlanWhy = 'furtherNeedle' | 'otherSet' | 'fromVein' | 'backToSkin'

export interface RunnerDeps extends DrawSessionDeps, ViewTexts {
  readonly sound: Sound
  readonly texts: Pick<Texts, 'draw' | 'note' | 'pictures' | 'plan'>
  readonly storageTexts: StorageTexts
  readonly onView: (view: DrawView) => void
  /** The phrases in the order of the person who draws now; without it in the site's. */
  readonly phrasesFor?: (s: DrawState) => PhraseBook
  /** The draw moved on: what may be said has changed. */
  readonly onMoved: () => void
  readonly onListening: (wanted: boolean) => void
  /** The labels of the draw are wanted on the screen that prints them. */
  readonly onPrintLabels: (drawId: string) => void
  /** What is spoken is heard by others too: it alarms nobody. */
  readonly isDiscreet: () => boolean
  /** No word may be heard now: each prompt is a tone. */
  readonly isQuiet: () => boolean
  readonly isTonesOnly: () => boolean
  readonly onTones: (tonesOnly: boolean) => void
  /** Somebody is in the middle of saying something. */
  readonly isHearing: () => boolean
  /** A plan for a further needle, from what is in the rack. */
  readonly planAgain?: (state: DrawState) => Plan | undefined
  /** In a practice draw: the script. */
  readonly coach?: Coach | undefined
  /** For the record, when the draw was taken over from another page, where it ran until now. */
  readonly takenOverNote?: string
}

/** Runs one draw on the screen: commands in, views and sounds out. */
export interface DrawRunner extends DrawChannel {
  readonly session: DrawSession
  /** The page is seen or runs again: looks at the clocks at once. */
  lookNow(): void
  stop(): void
}

/** Opens a draw and begins with its first step, once the opening is in the log. */
export async function openDrawRunner(deps: RunnerDeps, opening: DrawOpened): Promise<DrawRunner> {
  const runner = createDrawRunner(deps, await openDrawSession(deps, opening))
  await runner.dispatch({ type: 'sayAgain' }, 'app')
  return runner
}

/**
 * Goes on with a stored draw after a reload.
 * @throws RangeError when the log does not open a draw.
 */
export function resumeDrawRunner(deps: RunnerDeps, stored: DrawLog): DrawRunner {
  const runner = createDrawRunner(deps, resumeDrawSession(deps, stored))
  const { last, closed } = runner.session.state()
  const away_ms = Math.max(0, deps.clock.read().wall_ms - last.at.wall_ms)
  const text = deps.takenOverNote
  const first: Command =
    text === undefined ? { type: 'noticeAway', away_ms } : { type: 'addNote', text }
  if (!closed) void runner.session.dispatch(first, 'app')
  return runner
}

/** The words that stand for a prompt where patients listen: a short code for what alarms; the screen says it whole. */
function discreetKey(
  key: string,
  { isDiscreet, prompts }: Pick<RunnerDeps, 'isDiscreet' | 'prompts'>,
): string {
  return isDiscreet() && codedPrompt(key, prompts) !== undefined ? `discreet.${key}` : key
}

function createDrawRunner(deps: RunnerDeps, session: DrawSession): DrawRunner {
  const { clock, sound } = deps
  let question: Question | undefined
  let shown: ShownView = { listening: { state: { kind: 'off' }, level: 0 } }

  const show = (change: Partial<ShownView>): void => {
    shown = { ...shown, ...change }
    publish()
  }
  const prompter = createPrompter({ ...deps, spoken: (key) => discreetKey(key, deps) })
  const steering = createSteering({
    ...deps,
    say: (...keys) => prompter.say(...keys),
    state: () => session.state(),
    onNotice: (notice) => show({ notice }),
  })
  const timer = createCueTimer(clock, () => void session.giveDueCues().then(rearm))
  const heartbeat = startHeartbeat(clock, {
    onBeat: publish,
    onAway: (away_ms) => void session.dispatch({ type: 'noticeAway', away_ms }, 'app'),
    onClockStep: (by_ms) => void session.dispatch({ type: 'noticeClockStep', by_ms }, 'app'),
  })
  const stopChanges = session.onChange(changed)

  let isStopped = false

  function rearm(): void {
    // What was under way when the draw was left may end after it.
    if (!isStopped) timer.set(session.state())
  }

  function publish(): void {
    if (isStopped) return
    const askTube = tubeAsked(session.state(), question?.command)
    const view = {
      ...shown,
      ask: question?.ask,
      askTube,
      coach: deps.coach?.view(),
      isDiscreet: deps.isDiscreet(),
      isTonesOnly: deps.isTonesOnly(),
    }
    const s = session.state()
    const phrases = deps.phrasesFor?.(s) ?? deps.phrases
    deps.onView(drawView(s, clock.read(), { ...deps, phrases }, view))
  }

  function changed(change: DrawChange): void {
    const { after, entries, foreign } = change
    if (entries.some(({ source }) => source !== 'clock' && source !== 'app')) deps.coach?.advance()
    const { chimes, prompts } = effectsOf(change, deps.prompts)
    chimes.forEach((chime) => sound.chime(chime))
    const byClock = entries.every(({ source }) => source === 'clock')
    if (prompts.length > 0 && byClock && !chimes.includes('severe')) {
      prompter.sayLater(prompts, () => session.state() === after)
    } else if (prompts.length > 0) prompter.say(...prompts)
    // What others wrote is told with the change that comes of it, unless something graver has to be told then.
    const notice = noticeOf(change, deps) ?? (foreign > 0 ? ofOthers(foreign) : undefined)
    timer.set(after)
    show(notice || !byClock ? { notice } : {})
    deps.onMoved()
  }

  function ofOthers(n: number): Notice {
    return { tone: 'warn', text: fillText(deps.storageTexts.foreignSeen, { n }) }
  }

  function ask(next: Question | undefined): void {
    if (next === question) return
    question = next
    deps.onMoved()
    publish()
  }

  async function carryOut(
    given: Given & { readonly confirmed: boolean },
    transcript?: string,
    held?: true,
  ) {
    const { command, source, confirmed } = given
    const from = session.state().collecting
    const decision = await session.dispatch(command, source, transcript, confirmed, held)
    if (decision.kind === 'impossible') refuse(deps.words.impossible[decision.why])
    if (decision.kind === 'record') {
      // Also where that is taken back: the tubes of a needle are none of a lancet's.
      const { collecting } = session.state()
      if (collecting !== from) await planFurther(collecting ? 'backToSkin' : 'fromVein')
      if (command.type === 'tryAgain') await planFurther('furtherNeedle')
      if (command.type === 'chooseSet' || command.type === 'chooseSyringe')
        await planFurther('otherSet')
    }
    if (decision.kind === 'ask') prompter.say(`ask.${decision.ask}`)
    const next = questionOf(decision, given)
    if (next) ask(next)
  }

  /** A further needle, or another one, has a plan of its own for what is still missing. */
  async function planFurther(why: PlanWhy): Promise<void> {
    const plan = deps.planAgain?.(session.state())
    if (plan) await session.dispatch({ type: 'revisePlan', plan, why }, 'app')
  }

  function refuse(text: string): void {
    sound.chime('notUnderstood')
    show({ notice: { tone: 'info', text } })
  }

  if (!session.state().closed) rearm()
  publish()
  return {
    session,
    refuse,
    asking: () => question?.ask,
    async dispatch(command, source, transcript, held) {
      const given = carriedOut(question, { command, source })
      ask(undefined)
      if (!given) return
      if (isSteering(given.command.type)) steering[given.command.type]()
      else await carryOut(given, transcript, held)
    },
    showHeard: (heard) => show({ heard }),
    showListening: (listening, atOnce) => {
      shown = { ...shown, listening }
      if (atOnce) publish()
    },
    lookNow() {
      heartbeat.beatNow()
      void session.giveDueCues().then(rearm)
    },
    stop() {
      isStopped = true
      session.stop()
      heartbeat.stop()
      stopChanges()
      prompter.stop()
      timer.stop()
    },
  }
}
