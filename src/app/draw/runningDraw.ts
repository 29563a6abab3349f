import { defined } from '../../core/basics/defined.ts'
import type { Command } from '../../core/protocol/commands.ts'
import type { DrawLog, Source } from '../../core/protocol/entry.ts'
import type { DrawOpened } from '../../core/protocol/events.ts'
import type { Settings } from '../site/settings.ts'
import type { VoiceTexts } from '../site/voiceTexts.ts'
import type { Coach } from './coach.ts'
import { createDrawRunner, type DrawRunner, type RunnerDeps } from './drawRunner.ts'
import { createVoiceControl, type SpeechMaker, type VoiceControl } from './voiceControl.ts'

export interface RunningDrawDeps extends Omit<
  RunnerDeps,
  'onMoved' | 'onListening' | 'isHearing' | 'coach'
> {
  readonly makeSpeech: SpeechMaker
  readonly voiceTexts: VoiceTexts
  readonly settings: () => Settings
  /** The log has taken entries. */
  readonly onLog: (log: DrawLog) => void
}

/** The one draw that runs on this page: its runner and its ears, begun and ended together. */
export interface RunningDraw {
  /** The log of that draw as it stands, when it is the one that runs here. */
  log(drawId: string): DrawLog | undefined
  open(event: DrawOpened, coach?: Coach): Promise<void>
  goOn(stored: DrawLog): void
  dispatch(command: Command, source: Source, transcript?: string): Promise<void>
  end(): void
}

export function createRunningDraw(deps: RunningDrawDeps): RunningDraw {
  let runner: DrawRunner | undefined
  let ears: VoiceControl | undefined

  function start(stored?: DrawLog, coach?: Coach): DrawRunner {
    end()
    const started: DrawRunner = createDrawRunner(
      {
        ...deps,
        ...defined({ coach }),
        onMoved: () => {
          if (runner) deps.onLog(runner.session.log())
          ears?.moved()
        },
        onListening: (wanted) => ears?.setPaused(!wanted),
        isHearing: () => ears?.hearing() ?? false,
      },
      stored,
    )
    runner = started
    ears = createVoiceControl({ ...deps, settings: deps.settings(), draw: started })
    void ears.start()
    return started
  }

  function end(): void {
    runner?.stop()
    void ears?.stop()
    runner = undefined
    ears = undefined
  }

  return {
    log(drawId) {
      const log = runner?.session.log()
      return log?.drawId === drawId ? log : undefined
    },
    open: (event, coach) => start(undefined, coach).open(event),
    goOn: (stored) => void start(stored),
    dispatch: async (command, source, transcript) => runner?.dispatch(command, source, transcript),
    end,
  }
}
