import { ModelTrouble, type Engine } from './engine.ts'
import { errorText } from '../../../core/basics/errorText.ts'

export type EngineStatus = 'none' | 'ready' | 'died' | Pick<ModelTrouble, 'code' | 'message'>

/** Keeps an engine running: opens it, and opens it again when it dies. */
export interface EngineKeeper {
  /** Resolves when the engine is ready or its trouble has been told; never rejects. */
  start(): Promise<void>
  /** The engine was found to be dead. */
  died(): void
  stop(): void
}

/** One that dies sooner than this after its start is not started again at once, ms. */
const SOON_ms = 5000
/** Pauses before each attempt to open it again, ms; after the last it is left to the person. */
const AGAIN_ms = [0, 1000, 4000] as const

export function keepEngine(
  open: () => Promise<Engine>,
  now: () => number,
  tell: (status: EngineStatus, engine: Engine | undefined) => void,
): EngineKeeper {
  let engine: Engine | undefined
  let opening = false
  let ready_ms = 0
  /** One more with each start and stop: what an older run still brings is dropped. */
  let run = 0

  async function attempt(mine: number): Promise<EngineStatus | undefined> {
    try {
      const opened = await open()
      if (mine !== run) {
        opened.close()
        return undefined
      }
      engine = opened
      ready_ms = now()
      opened.onDeath(() => opened === engine && died())
      tell('ready', opened)
      return 'ready'
    } catch (error) {
      if (mine !== run) return undefined
      const message = errorText(error)
      return { code: error instanceof ModelTrouble ? error.code : 'loadFailed', message }
    }
  }

  function died(): void {
    if (!engine || opening) return
    engine.close()
    engine = undefined
    tell('died', undefined)
    void openAgain(run)
  }

  async function openAgain(mine: number): Promise<void> {
    opening = true
    let status: EngineStatus | undefined = 'died'
    const pauses = now() - ready_ms < SOON_ms ? AGAIN_ms.slice(1) : AGAIN_ms
    for (const pause_ms of pauses) {
      await new Promise((resolve) => setTimeout(resolve, pause_ms))
      if (mine !== run) return
      status = await attempt(mine)
      if (status === undefined || status === 'ready') break
    }
    if (mine !== run) return
    opening = false
    if (typeof status === 'object') tell(status, undefined)
  }

  return {
    async start() {
      run += 1
      opening = true
      const mine = run
      const status = await attempt(mine)
      if (mine !== run) return
      opening = false
      if (typeof status === 'object') tell(status, undefined)
    },
    died,
    stop() {
      run += 1
      opening = false
      engine?.close()
      engine = undefined
    },
  }
}
