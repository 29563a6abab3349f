import { errorText } from '../../../core/basics/errorText.ts'
import type { Clock } from '../../../ports/clock.ts'
import { ModelTrouble, type Engine, type ModelFault } from './engine.ts'
import { pause } from './waking.ts'

/** With what went wrong when it could not be opened. */
export type EngineStatus = 'none' | 'ready' | 'died' | ModelFault

/** Keeps an engine running: opens it, and opens it again when it dies. */
export interface EngineSupervisor {
  /** Resolves when the engine is ready or its trouble has been told; never rejects. */
  start(): Promise<void>
  /** The engine was found to be dead. */
  restart(): void
  stop(): void
}

/** One that dies sooner than this after its start is not started again at once, ms. */
const SOON_ms = 5000
/** Pauses before each attempt to open it again, ms; after the last it is left to the person. */
const AGAIN_ms = [0, 1000, 4000] as const

export function createEngineSupervisor(
  open: () => Promise<Engine>,
  clock: Clock,
  onStatus: (status: EngineStatus, engine: Engine | undefined) => void,
): EngineSupervisor {
  let engine: Engine | undefined
  let opening = false
  let ready_ms = 0
  /** Ended by each start and stop: what an older run still brings is dropped. */
  let run = new AbortController()

  const newRun = (): AbortSignal => {
    run.abort()
    run = new AbortController()
    return run.signal
  }

  async function attempt(signal: AbortSignal): Promise<EngineStatus | undefined> {
    try {
      const opened = await open()
      if (signal.aborted) {
        opened.close()
        return undefined
      }
      engine = opened
      ready_ms = clock.read().mono_ms
      opened.onDeath(() => opened === engine && restart())
      onStatus('ready', opened)
      return 'ready'
    } catch (error) {
      if (signal.aborted) return undefined
      return error instanceof ModelTrouble
        ? error.fault
        : { code: 'loadFailed', detail: errorText(error) }
    }
  }

  function restart(): void {
    if (!engine || opening) return
    engine.close()
    engine = undefined
    onStatus('died', undefined)
    void openAgain(run.signal)
  }

  async function openAgain(signal: AbortSignal): Promise<void> {
    opening = true
    let status: EngineStatus | undefined = 'died'
    const pauses = clock.read().mono_ms - ready_ms < SOON_ms ? AGAIN_ms.slice(1) : AGAIN_ms
    for (const pause_ms of pauses) {
      await pause(clock, pause_ms)
      if (signal.aborted) return
      status = await attempt(signal)
      if (status === undefined || status === 'ready') break
    }
    if (signal.aborted) return
    opening = false
    if (typeof status === 'object') onStatus(status, undefined)
  }

  return {
    async start() {
      const signal = newRun()
      opening = true
      const status = await attempt(signal)
      if (signal.aborted) return
      opening = false
      if (typeof status === 'object') onStatus(status, undefined)
    },
    restart,
    stop() {
      run.abort()
      opening = false
      engine?.close()
      engine = undefined
    },
  }
}
