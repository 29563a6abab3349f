import { createTurns } from '../../core/basics/turns.ts'
import { defined } from '../../core/basics/defined.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { LogFault } from '../../core/log/fault.ts'
import type { CheckedLog } from '../../core/log/readStored.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import { bodyIsSafe } from '../../core/protocol/facts.ts'
import { isClosed } from '../../core/protocol/isClosed.ts'
import type { DrawLock, HeldDraw } from '../../ports/drawLock.ts'
import type { RunningStore } from '../../ports/runningStore.ts'
import type { HeldMove } from '../../core/voice/heldEars.ts'
import type { ListeningLimits } from '../site/listeningLimits.ts'
import type { Settings } from '../site/settings.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import { createClosedDraw, type ClosedDraw } from './closedDraw.ts'
import type { Coach } from './coach.ts'
import { createClockKeeper } from './keepClocks.ts'
import { openDrawRunner, resumeDrawRunner, type DrawRunner, type RunnerDeps } from './drawRunner.ts'
import type { ElsewhereTexts } from '../view/drawViewTypes.ts'
import { createOnlooker, type Onlooker } from './onlooker.ts'
import { createVoiceControl, type SpeechMaker, type VoiceControl } from './voiceControl.ts'

export interface RunningDrawDeps extends Omit<
  RunnerDeps,
  'onMoved' | 'onListening' | 'isHearing' | 'isDiscreet' | 'isTonesOnly' | 'coach' | 'takenOverNote'
> {
  readonly makeSpeech: SpeechMaker
  readonly voiceTexts: VoiceTexts
  readonly listening: ListeningLimits
  readonly drawLock: DrawLock
  readonly runningStore: RunningStore
  readonly settings: () => Settings
  /** What to say of a stored record whose chain is broken. */
  readonly brokenText: (fault: LogFault) => string
  /** A draw begins here, or is gone on with. */
  readonly onStart: (drawId: string) => void
  /** The log has taken entries; with the last of them the draw may be closed. */
  readonly onLog: (log: DrawLog) => void
}

/**
 * The one draw that is on this page. One page writes a draw; here it is only shown while another one does. With the
 * close its clocks, its cues and its ears end: what comes later is a deliberate act, by touch, on its record.
 */
export interface RunningDraw {
  /** The log of that draw as it stands, when it is the one that runs here and is not closed. */
  log(drawId: string): CheckedLog | undefined
  open(event: DrawOpened, coach?: Coach): Promise<void>
  /** Goes on with a draw that is open, or shows it as one that is closed. */
  goOn(stored: CheckedLog): Promise<void>
  /** Goes on without ears, so that its alarms sound; not while another page writes it. */
  watch(stored: CheckedLog): Promise<void>
  /** Something was added to the record of a closed draw. */
  update(log: DrawLog): void
  /** Whether a screen of that draw is before the person. Elsewhere nothing is heard for it; its alarms still sound. */
  attend(drawId: string | undefined): void
  /** Shows a draw that another device writes. @param load how its log now stands */
  lookOn(log: DrawLog, load: () => DrawLog | undefined, elsewhere: ElsewhereTexts): Promise<void>
  /** Another device has taken over the draw that runs here: it is only shown from now on. */
  loseTo(log: DrawLog, load: () => DrawLog | undefined, elsewhere: ElsewhereTexts): void
  /**
   * Goes on here with a draw that was another device's until now. False while another page of this device has it.
   * @param note says so in the record
   */
  goOnFrom(stored: CheckedLog, note: string): Promise<boolean>
  /** Writes the draw here from now on that is only shown; the other page stops. */
  takeOver(): Promise<void>
  dispatch(command: Command, source: Source, transcript?: string): Promise<void>
  /** The key, the pedal or the bar that holds the ears of the draw open goes down or up, or is lost. */
  holdEars(move: HeldMove): void
  /** The page is seen or runs again: the draw looks at its clocks at once. */
  lookNow(): void
  /** A draw that is not closed is written by this page. */
  isWriting(): boolean
  /** That draw, as far as others who want to be heard must know of it. */
  drawing(): DrawingHere | undefined
  end(): void
}

export interface DrawingHere {
  readonly drawId: string
  /** Practice. */
  readonly invented: boolean
  /** No needle in, no band on, no tube on. */
  readonly isSafe: boolean
  /** Blood was drawn in it. */
  readonly hasBlood: boolean
}

export function createRunningDraw(deps: RunningDrawDeps): RunningDraw {
  let runner: DrawRunner | undefined
  let ears: VoiceControl | undefined
  let held: HeldDraw | undefined
  let onlooker: Onlooker | undefined
  let closed: ClosedDraw | undefined
  /** Of the stored record that was gone on with. */
  let fault: LogFault | undefined
  const keepClocks = createClockKeeper(deps.runningStore)
  /** A draw is begun only once the one before is, so that one page never asks twice for one lock. */
  const inTurn = createTurns()

  const depsWith = (more: Partial<RunnerDeps>): RunnerDeps => ({
    ...deps,
    ...more,
    onView: (view) => deps.onView(fault ? { ...view, broken: deps.brokenText(fault) } : view),
    onMoved: () => {
      if (!runner) return
      const log = runner.session.log()
      const state = runner.session.state()
      keepClocks(state)
      if (state.closed) showClosed(log, more.coach)
      else ears?.moved()
      deps.onLog(log)
    },
    onListening: (wanted) => ears?.setPaused(!wanted),
    isDiscreet: () => deps.settings().discreet,
    isTonesOnly: () => deps.settings().tonesOnly,
    isHearing: () => ears?.hearing() ?? false,
  })

  function start(lock: HeldDraw, started: DrawRunner): void {
    end()
    held = lock
    runner = started
    deps.onStart(started.session.log().drawId)
  }

  function listen(draw: DrawRunner): void {
    ears = createVoiceControl({ ...deps, draw })
    void ears.start()
  }

  function hush(draw: DrawRunner): void {
    void ears?.stop()
    ears = undefined
    draw.showListening({ state: { kind: 'off' }, level: 0 })
  }

  function showClosed(log: DrawLog, coach?: Coach): void {
    end()
    closed = createClosedDraw({ ...deps, coach: coach?.view() }, log)
  }

  function look(log: DrawLog, text: string): void {
    end()
    const { takeOver } = deps.storageTexts.elsewhere
    onlooker = createOnlooker({ ...deps, elsewhere: { text, takeOver } }, log)
  }

  /** The same for a draw of another device. */
  function lookFar(log: DrawLog, load: () => DrawLog | undefined, elsewhere: ElsewhereTexts): void {
    end()
    const logs = { load: () => Promise.resolve(load()) }
    onlooker = createOnlooker({ ...deps, logs, elsewhere }, log)
  }

  const lose = (): void => {
    if (runner) look(runner.session.log(), deps.storageTexts.elsewhere.taken)
  }

  function end(): void {
    onlooker?.stop()
    closed?.stop()
    runner?.stop()
    void ears?.stop()
    held?.release()
    onlooker = undefined
    closed = undefined
    runner = undefined
    ears = undefined
    held = undefined
    fault = undefined
  }

  const log = (drawId: string): CheckedLog | undefined => {
    const running = runner?.session.log()
    return running?.drawId === drawId ? defined({ ...running, fault }) : undefined
  }

  return {
    log,
    open: (event, coach) =>
      inTurn(async () => {
        const lock = await deps.drawLock.take(event.drawId, lose)
        const started = await openDrawRunner(depsWith({ coach }), event)
        start(lock, started)
        listen(started)
      }),
    goOn: (stored) =>
      inTurn(async () => {
        if (log(stored.drawId)) return
        if (isClosed(stored)) {
          showClosed(stored)
          return
        }
        const lock = await deps.drawLock.hold(stored.drawId, lose)
        if (lock) {
          start(lock, resumeDrawRunner(depsWith({}), stored))
          fault = stored.fault
        } else look(stored, deps.storageTexts.elsewhere.running)
      }),
    lookOn: (log, load, elsewhere) =>
      inTurn(() => {
        if (isClosed(log)) showClosed(log)
        else lookFar(log, load, elsewhere)
        return Promise.resolve()
      }),
    loseTo: lookFar,
    watch: (stored) =>
      inTurn(async () => {
        const lock = runner ? undefined : await deps.drawLock.hold(stored.drawId, lose)
        if (!lock) return
        start(lock, resumeDrawRunner(depsWith({}), stored))
        fault = stored.fault
      }),
    goOnFrom: (stored, takenOverNote) =>
      inTurn(async () => {
        const lock = await deps.drawLock.hold(stored.drawId, lose)
        if (!lock) return false
        const taken = resumeDrawRunner(depsWith({ takenOverNote }), stored)
        start(lock, taken)
        listen(taken)
        return true
      }),
    update: (log) => {
      if (closed?.drawId === log.drawId) closed.update(log)
    },
    attend: (drawId) => {
      if (runner) {
        const attended = log(drawId ?? '') !== undefined
        if (attended && !ears) listen(runner)
        if (!attended && ears) hush(runner)
      } else if (drawId === undefined) end()
    },
    takeOver: () =>
      inTurn(async () => {
        const shown = onlooker?.log()
        if (!shown) return
        const lock = await deps.drawLock.take(shown.drawId, lose)
        const now = await deps.logs.load(shown.drawId).catch(() => undefined)
        const takenOverNote = deps.storageTexts.elsewhere.note
        const stored: CheckedLog = now ?? shown
        const taken = resumeDrawRunner(depsWith({ takenOverNote }), stored)
        start(lock, taken)
        fault = stored.fault
        listen(taken)
      }),
    dispatch: async (command, source, transcript) => runner?.dispatch(command, source, transcript),
    holdEars: (move) => ears?.hold(move),
    lookNow: () => runner?.lookNow(),
    isWriting: () => runner?.session.state().closed === undefined && runner !== undefined,
    drawing: () => {
      const state = runner?.session.state()
      if (!state || state.closed) return undefined
      return {
        drawId: state.opened.drawId,
        invented: state.opened.invented,
        isSafe: bodyIsSafe(state),
        hasBlood: state.tubes.some(({ on }) => on !== undefined),
      }
    },
    end,
  }
}
