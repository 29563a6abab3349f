import type { PlanTexts } from '../../core/plan/planTexts.ts'
import type { DrawLog, LogEntry, Source } from '../../core/protocol/entry.ts'
import type { Sha256 } from '../../core/log/seal.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import type { Plan } from '../../core/plan/plan.ts'
import type { Ask } from '../../core/protocol/rules.ts'
import type { DrawState } from '../../core/protocol/state.ts'
import { fillText } from '../../core/basics/fillText.ts'
import { stepOf } from '../../core/protocol/steps.ts'
import { bandIsOn } from '../../core/protocol/facts.ts'
import { minutesSeconds } from '../../core/time/format.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Sound } from '../../ports/sound.ts'
import { clockSentence, clockViews } from '../view/clockViews.ts'
import type { Coach } from './coach.ts'
import { createCueTimer } from './cueTimer.ts'
import type { DrawChannel } from './drawChannel.ts'
import type { DrawLogs } from './drawLogs.ts'
import { createDrawSession, type DrawSession } from './drawSession.ts'
import { drawView } from '../view/drawView.ts'
import { effectsOf } from './effects.ts'
import { startHeartbeat } from './heartbeat.ts'
import type { PhraseBook } from '../site/phraseBook.ts'
import { stepPromptKey, timePromptKey } from '../view/promptKeys.ts'
import type { DrawView, HeardView, ListeningView } from '../view/drawViewTypes.ts'
import type { StorageTexts } from '../site/storageTexts.ts'
import type { Prompts, Words } from '../site/words.ts'

export interface RunnerDeps {
  readonly clock: Clock
  readonly logs: DrawLogs
  readonly sound: Sound
  readonly sha256: Sha256
  readonly words: Words
  readonly storageTexts: StorageTexts
  readonly prompts: Prompts
  readonly phrases: PhraseBook
  readonly testName: (code: string) => string
  readonly planTexts: PlanTexts
  readonly onView: (view: DrawView | undefined) => void
  /** The draw moved on: what may be said has changed. */
  readonly onMoved: () => void
  readonly onListening: (wanted: boolean) => void
  /** Somebody is in the middle of saying something. */
  readonly isHearing: () => boolean
  /** A plan for a further needle, from what is in the rack. */
  readonly planAgain?: (state: DrawState) => Plan | undefined
  /** In a practice draw: the script. */
  readonly coach?: Coach
  /** For the record, when the draw was taken over from another page, where it ran until now. */
  readonly takenOverNote?: string
}

/** Runs one draw on the screen: commands in, views and sounds out. */
export interface DrawRunner extends DrawChannel {
  readonly session: DrawSession
  open(event: DrawOpened): Promise<void>
  stop(): void
}

interface Note {
  readonly tone: 'info' | 'warn'
  readonly text: string
}

/** About as long as a phrase and its hearing take. */
const WAIT_FOR_SPEECH_ms = 1200

/** Starts a runner on a new draw, or on a stored log after a reload. */
export function createDrawRunner(deps: RunnerDeps, stored?: DrawLog): DrawRunner {
  let cancelSaying: (() => void) | undefined
  let notice: Note | undefined
  let ofOthers: Note | undefined
  let heard: HeardView | undefined
  let listening: ListeningView = { state: { kind: 'off' }, level: 0 }
  let pending: { readonly ask: Ask; readonly command: Command; readonly source: Source } | undefined

  const session = createDrawSession({ ...deps, onChange: changed, onForeign: foreign }, stored)
  const timer = createCueTimer(deps.clock, () => void session.giveDueCues().then(rearm))
  const stopBeat = startHeartbeat(deps.clock, {
    onBeat: publish,
    onAway: (away_ms) => void session.dispatch({ type: 'noticeAway', away_ms }, 'app'),
    onClockStep: (by_ms) => void session.dispatch({ type: 'noticeClockStep', by_ms }, 'app'),
  })

  function rearm(): void {
    timer.set(session.state())
  }

  function publish(): void {
    const { words, prompts, phrases, testName, planTexts } = deps
    deps.onView(
      drawView(session.state(), deps.clock.read(), {
        words,
        prompts,
        phrases,
        testName,
        planTexts,
        listening,
        ...(heard ? { heard } : {}),
        ...(notice ? { notice } : {}),
        ...(pending ? { ask: pending.ask } : {}),
        ...(deps.coach ? { coach: deps.coach.view() } : {}),
      }),
    )
  }

  function changed(before: DrawState, after: DrawState, entries: readonly LogEntry[]): void {
    if (entries.some(({ source }) => source !== 'clock' && source !== 'app')) deps.coach?.advance()
    const effects = effectsOf(before, after, entries, deps.prompts)
    effects.chimes.forEach((chime) => deps.sound.chime(chime))
    const byClock = entries.every(({ source }) => source === 'clock')
    if (effects.prompt) say(effects.prompt, byClock && !effects.chimes.includes('severe'))
    const said = noticeOf(before, after, entries, deps.words) ?? ofOthers
    ofOthers = undefined
    if (said || entries.some(({ source }) => source !== 'clock')) notice = said
    timer.set(after)
    publish()
    deps.onMoved()
  }

  /** Told with the change that comes of it, unless something graver has to be told then. */
  function foreign(count: number): void {
    const text = fillText(deps.storageTexts.foreignSeen, { n: count })
    ofOthers = { tone: 'warn', text }
  }

  /** A cue's words wait for the person's: over each other neither would be understood. Its chime has sounded. */
  function say(key: string, mayWait: boolean): void {
    cancelSaying?.()
    cancelSaying = undefined
    if (!mayWait || !deps.isHearing()) {
      deps.sound.speak(key)
      return
    }
    const entries = session.log().entries.length
    const later = deps.clock.read().mono_ms + WAIT_FOR_SPEECH_ms
    cancelSaying = deps.clock.wakeAt(later, () => {
      if (session.log().entries.length === entries) deps.sound.speak(key)
    })
  }

  async function dispatch(command: Command, source: Source, transcript?: string): Promise<void> {
    if (pending && command.type === 'confirmYes') {
      const { command: asked, source: from } = pending
      pending = undefined
      await decideOn(asked, from, transcript, true)
      return
    }
    if (pending) {
      // Anything else than yes leaves the question unanswered, so what was asked is not done.
      pending = undefined
      deps.onMoved()
      publish()
      if (command.type === 'confirmNo' || command.type === 'goBack') return
    }
    if (steer(command)) return
    await decideOn(command, source, transcript, false)
  }

  async function decideOn(
    command: Command,
    source: Source,
    transcript: string | undefined,
    sure: boolean,
  ): Promise<void> {
    const decision = await session.dispatch(command, source, transcript, sure)
    if (decision.kind === 'impossible') {
      refuse(deps.words.impossible[decision.why] ?? decision.why)
    } else if (decision.kind === 'record' && command.type === 'tryAgain') {
      await planFurther()
    } else if (decision.kind === 'ask') {
      pending = { ask: decision.ask, command, source }
      deps.sound.speak(`ask.${decision.ask}`)
      deps.onMoved()
      publish()
    }
  }

  /** A further needle begins with a plan for what is still missing. */
  async function planFurther(): Promise<void> {
    const plan = deps.planAgain?.(session.state())
    if (plan) await session.dispatch({ type: 'revisePlan', plan, why: 'further needle' }, 'app')
  }

  function refuse(text: string): void {
    notice = { tone: 'info', text }
    deps.sound.chime('notUnderstood')
    publish()
  }

  /** Commands that steer the app and leave no trace in the record. */
  function steer(command: Command): boolean {
    const s = session.state()
    switch (command.type) {
      case 'sayAgain':
        deps.sound.speak(stepPromptKey(s, stepOf(s), deps.prompts))
        return true
      case 'howLong': {
        const clock = clockViews(s, deps.clock.read(), deps.words)[0]
        notice = {
          tone: 'info',
          text: clock ? clockSentence(clock) : 'No clock is running.',
        }
        deps.sound.speak(clock ? timePromptKey(clock.value_ms, deps.prompts) : 'time.none')
        publish()
        return true
      }
      case 'pauseListening':
      case 'resumeListening':
        deps.onListening(command.type === 'resumeListening')
        deps.sound.speak(command.type === 'resumeListening' ? 'app.resumed' : 'app.paused')
        return true
      case 'confirmYes':
      case 'confirmNo':
        return true
      default:
        return false
    }
  }

  if (stored) {
    const last = session.log().entries.at(-1)
    const now = deps.clock.read()
    if (last && !session.state().closed) {
      const away_ms = Math.max(0, now.wall_ms - last.at.wall_ms)
      const text = deps.takenOverNote
      const first: Command =
        text === undefined ? { type: 'noticeAway', away_ms } : { type: 'addNote', text }
      void session.dispatch(first, 'app').then(rearm)
    }
  }
  publish()

  return {
    session,
    dispatch,
    refuse,
    asking: () => pending !== undefined,
    open: async (event) => {
      await session.open(event)
      deps.sound.speak(stepPromptKey(session.state(), stepOf(session.state()), deps.prompts))
      rearm()
    },
    showHeard(view) {
      heard = view
      publish()
    },
    showListening(view) {
      listening = view
    },
    stop() {
      session.stop()
      stopBeat()
      timer.stop()
    },
  }
}

/** What to tell after a change: the gravest flag, an exception, a gap, a cue; in words, with what to do now. */
function noticeOf(
  before: DrawState,
  after: DrawState,
  entries: readonly LogEntry[],
  words: Words,
): Note | undefined {
  const warn = (text: string | undefined): Note | undefined =>
    text === undefined ? undefined : { tone: 'warn', text }
  for (const { event } of entries) {
    if (event.type === 'flagRaised') return warn(words.flags[event.flag])
    if (event.type === 'exceptionRaised') {
      const row = words.exceptions[event.kind]
      return warn(row && `${row.title}. ${row.instruction}`)
    }
    if (event.type === 'awayNoticed') {
      const band = event.bandWasOn || bandIsOn(after) ? ' The band was on: check it now.' : ''
      return warn(`The app was away for ${minutesSeconds(event.away_ms)}.${band}`)
    }
    if (event.type === 'entryUndone') {
      const undone = before.kept.find(({ seq }) => seq === event.seq)
      return {
        tone: 'info',
        text: `Taken back: entry ${event.seq}${undone ? ` (${undone.event.type})` : ''}. It stays in the record as said in error.`,
      }
    }
  }
  return undefined
}
