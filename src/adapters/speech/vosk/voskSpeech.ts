import { createEmitter } from '../../../core/basics/emitter.ts'
import { defined } from '../../../core/basics/defined.ts'
import type { Clock } from '../../../ports/clock.ts'
import type { Hearing, Speech, SpeechState } from '../../../ports/speech.ts'
import type { AudioChunk, AudioSource } from './audioSource.ts'
import type { Engine } from './engine.ts'
import { createEngineSupervisor } from './engineSupervisor.ts'
import { createPageLock } from './pageLock.ts'
import { createRecognizerPool } from './recognizerPool.ts'
import { createRoomLevel } from './roomLevel.ts'
import { createSegmentMeter, framesOf } from './speechSegment.ts'
import { NOT_HEARING, speechState, type HearingFacts } from './speechState.ts'
import { openVoskEngine, type ModelOptions } from './voskEngine.ts'
import { every } from './waking.ts'

export interface VoskOptions extends ModelOptions {
  readonly source: AudioSource
  readonly clock: Clock
  /** Audio flows and the engine says nothing for this long: it is dead and is started again. */
  readonly watchdog_ms?: number
  /** A room whose pauses are louder than this is told to be too loud. */
  readonly loud_dBFS?: number
  readonly openEngine?: (options: ModelOptions) => Promise<Engine>
}

export interface VoskSpeech extends Speech {
  /**
   * Resolves when all audio given so far has been answered; for recordings that are fed faster than they were spoken.
   */
  settled(): Promise<void>
}

/** All trouble is to be told within two seconds. */
const WATCHDOG_ms = 1500
const POLL_ms = 150
/** A machine that is only slow would be started again and again, so patience grows with each start, up to this. */
const PATIENCE_ms = 8000
const LOUD_dBFS = -28

/**
 * The recognizer in the browser. Nothing it hears is stored or sent; the last seconds of audio are kept in memory so
 * that the next recognizer can hear what the one before it had not made out.
 */
export function createVoskSpeech(options: VoskOptions): VoskSpeech {
  const { clock, source, openEngine = openVoskEngine } = options
  const hearings = createEmitter<Hearing>()
  const states = createEmitter<SpeechState>()
  const levels = createEmitter<number>()
  const page = createPageLock(clock)
  const segments = createSegmentMeter()
  const room = createRoomLevel(options.loud_dBFS ?? LOUD_dBFS)
  let facts: HearingFacts = NOT_HEARING
  let patience_ms = options.watchdog_ms ?? WATCHDOG_ms
  let endPolls: (() => void) | undefined
  /** Ended by each stop: what an older run still brings is dropped. */
  let run = new AbortController()
  let notified: () => void = () => undefined

  const recognizers = createRecognizerPool(
    () => clock.read().mono_ms,
    hearings.emit,
    () => supervisor.restart(),
  )
  const supervisor = createEngineSupervisor(
    () => openEngine(options),
    clock,
    (status, engine) => {
      recognizers.use(engine)
      update({ engine: status })
    },
  )

  function update(more: Partial<HearingFacts>): void {
    const before = speechState(facts)
    facts = { ...facts, ...more }
    const after = speechState(facts)
    if (JSON.stringify(before) !== JSON.stringify(after)) states.emit(after)
    if (after.kind !== 'loading') notified()
  }

  function onChunk(chunk: AudioChunk): void {
    room.add(chunk.level_dBFS)
    const segment = segments.add(chunk.level_dBFS, framesOf(chunk.samples))
    levels.emit(Math.max(0, Math.min(1, 1 + chunk.level_dBFS / 60)))
    if (room.tooLoud() !== facts.loud) update({ loud: room.tooLoud() })
    recognizers.accept(defined({ ...chunk, ...segment, level_dB: room.above_dB() }))
  }

  function poll(): void {
    const owed = recognizers.owed_ms()
    if (owed.any <= patience_ms && owed.oldest <= 2 * patience_ms) return
    patience_ms = Math.min(2 * patience_ms, PATIENCE_ms)
    supervisor.restart()
  }

  async function begin({ signal }: AbortController): Promise<void> {
    const updateIfCurrent = (more: Partial<HearingFacts>): void => {
      if (!signal.aborted) update(more)
    }
    await page.take(() => updateIfCurrent({ elsewhere: true }))
    if (signal.aborted) return
    update({ elsewhere: false })
    await Promise.all([
      supervisor.start(),
      source
        .start({ onChunk, onTrouble: (audio) => updateIfCurrent({ audio }) })
        .then(() => updateIfCurrent({ source: 'open' })),
    ])
  }

  return {
    async start() {
      if (facts.wanted) return
      const answered = new Promise<void>((resolve) => (notified = resolve))
      update({ wanted: true })
      endPolls = every(clock, POLL_ms, poll)
      run = new AbortController()
      void begin(run)
      await answered
    },
    async stop() {
      run.abort()
      endPolls?.()
      supervisor.stop()
      recognizers.use(undefined)
      recognizers.forget()
      update(NOT_HEARING)
      await source.stop()
      page.release()
    },
    setPhrases: (phrases) => recognizers.setPhrases(phrases),
    onHearing: hearings.observe,
    onState: states.observe,
    onLevel: levels.observe,
    async settled() {
      while (recognizers.waiting() > 0) await new Promise((resolve) => setTimeout(resolve, 5))
    },
  }
}
