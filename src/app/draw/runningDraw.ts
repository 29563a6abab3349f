import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import type { DrawLock, HeldDraw } from '../../ports/drawLock.ts'
import type { Settings } from '../site/settings.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { Coach } from './coach.ts'
import { openDrawRunner, resumeDrawRunner, type DrawRunner, type RunnerDeps } from './drawRunner.ts'
import { createOnlooker, type Onlooker } from './onlooker.ts'
import { createVoiceControl, type SpeechMaker, type VoiceControl } from './voiceControl.ts'

export interface RunningDrawDeps extends Omit<
  RunnerDeps,
  'onMoved' | 'onListening' | 'isHearing' | 'coach' | 'takenOverNote'
> {
  readonly makeSpeech: SpeechMaker
  readonly voiceTexts: VoiceTexts
  readonly drawLock: DrawLock
  readonly settings: () => Settings
  /** The log has taken entries. */
  readonly onLog: (log: DrawLog) => void
}

/**
 * The one draw that is on this page: its runner and its ears, begun and ended together. One page writes a draw; here
 * it is only shown while another one does.
 */
export interface RunningDraw {
  /** The log of that draw as it stands, when it is the one that runs here. */
  log(drawId: string): DrawLog | undefined
  open(event: DrawOpened, coach?: Coach): Promise<void>
  goOn(stored: DrawLog): Promise<void>
  /** Writes the draw here from now on that is only shown; the other page stops. */
  takeOver(): Promise<void>
  dispatch(command: Command, source: Source, transcript?: string): Promise<void>
  /** A draw that is not closed is written by this page. */
  isWriting(): boolean
  end(): void
}

export function createRunningDraw(deps: RunningDrawDeps): RunningDraw {
  let runner: DrawRunner | undefined
  let ears: VoiceControl | undefined
  let held: HeldDraw | undefined
  let onlooker: Onlooker | undefined
  let turn: Promise<unknown> = Promise.resolve()

  /** A draw is begun only once the one before is, so that one page never asks twice for one lock. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = turn.then(work)
    turn = next.catch(() => undefined)
    return next
  }

  const depsWith = (more: Partial<RunnerDeps>): RunnerDeps => ({
    ...deps,
    ...more,
    onMoved: () => {
      if (runner) deps.onLog(runner.session.log())
      ears?.moved()
    },
    onListening: (wanted) => ears?.setPaused(!wanted),
    isHearing: () => ears?.hearing() ?? false,
  })

  function start(lock: HeldDraw, started: DrawRunner): void {
    end()
    held = lock
    runner = started
    ears = createVoiceControl({ ...deps, settings: deps.settings(), draw: started })
    void ears.start()
  }

  function look(log: DrawLog, text: string): void {
    end()
    const { takeOver } = deps.storageTexts.elsewhere
    onlooker = createOnlooker({ ...deps, elsewhere: { text, takeOver } }, log)
  }

  const lose = (): void => {
    if (runner) look(runner.session.log(), deps.storageTexts.elsewhere.taken)
  }

  function end(): void {
    onlooker?.stop()
    runner?.stop()
    void ears?.stop()
    held?.release()
    onlooker = undefined
    runner = undefined
    ears = undefined
    held = undefined
  }

  const log = (drawId: string): DrawLog | undefined => {
    const running = runner?.session.log()
    return running?.drawId === drawId ? running : undefined
  }

  return {
    log,
    open: (event, coach) =>
      inTurn(async () => {
        const lock = await deps.drawLock.take(event.drawId, lose)
        start(lock, await openDrawRunner(depsWith({ coach }), event))
      }),
    goOn: (stored) =>
      inTurn(async () => {
        if (log(stored.drawId)) return
        const lock = await deps.drawLock.hold(stored.drawId, lose)
        if (lock) start(lock, resumeDrawRunner(depsWith({}), stored))
        else look(stored, deps.storageTexts.elsewhere.running)
      }),
    takeOver: () =>
      inTurn(async () => {
        const shown = onlooker?.log()
        if (!shown) return
        const lock = await deps.drawLock.take(shown.drawId, lose)
        const now = await deps.logs.load(shown.drawId).catch(() => undefined)
        const takenOverNote = deps.storageTexts.elsewhere.note
        start(lock, resumeDrawRunner(depsWith({ takenOverNote }), now ?? shown))
      }),
    dispatch: async (command, source, transcript) => runner?.dispatch(command, source, transcript),
    isWriting: () => runner?.session.state().closed === undefined && runner !== undefined,
    end,
  }
}
