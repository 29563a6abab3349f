import type { Hearing, Speech, SpeechState } from '../../../ports/speech.ts'
import type { AudioChunk, AudioSource } from './audioSource.ts'
import { ears } from './ears.ts'
import type { Engine } from './engine.ts'
import { keepEngine } from './keepEngine.ts'
import { createEmitter } from '../../../core/basics/emitter.ts'
import { onePage } from './onePage.ts'
import { roomLevel } from './roomLevel.ts'
import { framesOf, speechStretch } from './speechStretch.ts'
import { NOT_HEARING, speechState, type HearingFacts } from './speechState.ts'
import { openVoskEngine, type ModelPlace } from './voskEngine.ts'

export interface VoskOptions extends ModelPlace {
  readonly source: AudioSource
  /** Monotonic ms. */
  readonly now: () => number
  /** Sound flows and the engine says nothing for this long: it is dead and is started again. */
  readonly watchdog_ms?: number
  /** A room whose pauses are louder than this is told to be too loud. */
  readonly loud_dBFS?: number
  readonly openEngine?: (place: ModelPlace) => Promise<Engine>
}

export interface VoskSpeech extends Speech {
  /** Resolves when all sound given so far has been answered; for recordings that are fed faster than they were spoken. */
  settled(): Promise<void>
}

/** All trouble is to be told within two seconds. */
const WATCHDOG_ms = 1700
const LOOK_ms = 250
/** A machine that is only slow would be started again and again, so patience grows with each start, up to this. */
const PATIENCE_ms = 8000
const LOUD_dBFS = -28

/**
 * The recognizer in the browser. Nothing it hears is stored or sent; the last seconds of sound are kept in memory so
 * that the next recognizer can hear what the one before it had not made out.
 */
export function createVoskSpeech(options: VoskOptions): VoskSpeech {
  const { now, source, openEngine = openVoskEngine } = options
  const hearings = createEmitter<Hearing>()
  const states = createEmitter<SpeechState>()
  const levels = createEmitter<number>()
  const page = onePage()
  const stretch = speechStretch()
  const room = roomLevel(options.loud_dBFS ?? LOUD_dBFS)
  let facts: HearingFacts = NOT_HEARING
  let patience_ms = options.watchdog_ms ?? WATCHDOG_ms
  let looks: ReturnType<typeof setInterval> | undefined
  /** One more with each start and stop: what an older run still brings is dropped. */
  let run = 0
  let told: () => void = () => undefined

  const heard = ears(
    now,
    (hearing) => hearings.emit(hearing),
    () => keeper.died(),
  )
  const keeper = keepEngine(
    () => openEngine(options),
    now,
    (status, engine) => {
      heard.use(engine)
      learn({ engine: status })
    },
  )

  function learn(more: Partial<HearingFacts>): void {
    const before = speechState(facts)
    facts = { ...facts, ...more }
    const after = speechState(facts)
    if (JSON.stringify(before) !== JSON.stringify(after)) states.emit(after)
    if (after.kind !== 'loading') told()
  }

  function onChunk(chunk: AudioChunk): void {
    room.add(chunk.level_dBFS)
    const spoken = stretch.add(chunk.level_dBFS, framesOf(chunk.samples))
    levels.emit(Math.max(0, Math.min(1, 1 + chunk.level_dBFS / 60)))
    if (room.tooLoud() !== facts.loud) learn({ loud: room.tooLoud() })
    heard.hear({ ...chunk, level_dB: room.above_dB(), stretch: spoken })
  }

  function look(): void {
    const owed = heard.owed_ms()
    if (owed.any <= patience_ms && owed.oldest <= 2 * patience_ms) return
    patience_ms = Math.min(2 * patience_ms, PATIENCE_ms)
    keeper.died()
  }

  async function begin(mine: number): Promise<void> {
    await page.take(() => mine === run && learn({ elsewhere: true }))
    if (mine !== run) return
    learn({ elsewhere: false })
    await Promise.all([
      keeper.start(),
      source
        .start({ onChunk, onTrouble: (audio) => mine === run && learn({ audio }) })
        .then(() => mine === run && learn({ source: 'open' })),
    ])
  }

  return {
    async start() {
      if (facts.wanted) return
      const answered = new Promise<void>((resolve) => (told = resolve))
      learn({ wanted: true })
      looks = setInterval(look, LOOK_ms)
      void begin(++run)
      await answered
    },
    async stop() {
      run += 1
      clearInterval(looks)
      keeper.stop()
      heard.use(undefined)
      heard.forget()
      learn(NOT_HEARING)
      await source.stop()
      page.release()
    },
    setPhrases: (phrases) => heard.setPhrases(phrases),
    onHearing: hearings.observe,
    onState: states.observe,
    onLevel: levels.observe,
    async settled() {
      while (heard.waiting() > 0) await new Promise((resolve) => setTimeout(resolve, 5))
    },
  }
}
