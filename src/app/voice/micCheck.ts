import { SAFETY_COMMANDS } from '../../core/protocol/commandTable.ts'
import type { CommandKey } from '../../core/protocol/commands.ts'
import { judgeMic, type MicVerdict } from '../../core/voice/judgeMic.ts'
import { openAtStep } from '../../core/voice/openTogether.ts'
import type { Clock } from '../../ports/clock.ts'
import type { Speech, SpeechState } from '../../ports/speech.ts'
import { createPhraseEar, type PhraseEar } from './phraseEar.ts'
import type { PhraseBook } from '../site/phraseBook.ts'

export type MicCheckView =
  | { readonly phase: 'ready' }
  | { readonly phase: 'opening' }
  | { readonly phase: 'room'; readonly level: number }
  | {
      readonly phase: 'asking'
      readonly phrase: string
      readonly number: number
      readonly of: number
      readonly level: number
      /** What was heard last, right or not. */
      readonly heard?: string
    }
  | {
      readonly phase: 'done'
      readonly verdict: MicVerdict
      readonly right: number
      readonly asked: number
    }

export interface MicCheckDeps {
  readonly clock: Clock
  readonly phrases: PhraseBook
  readonly makeSpeech: () => Speech
  /** A quiet tick when a phrase was heard. */
  readonly onHeard: () => void
}

/** A microphone check of one minute. Nothing of it is recorded. */
export interface MicCheck {
  readonly current: () => MicCheckView
  readonly subscribe: (listener: () => void) => () => void
  readonly start: () => Promise<void>
  /** Goes on to the next phrase as not heard. */
  readonly skip: () => void
  readonly stop: () => void
}

/** Each phrase is heard among those of its step, as in a draw: long and short, and one that must never be missed. */
export const CHECKED: readonly { readonly key: CommandKey; readonly step: string }[] = [
  { key: 'confirmPatient', step: 'identity' },
  { key: 'confirmSupplies', step: 'supplies' },
  { key: 'needleIn', step: 'needle' },
  { key: 'tubeFull', step: 'filling' },
  { key: 'bandOff', step: 'release' },
  { key: 'stopEverything', step: 'filling' },
]

/** With three seconds for the room and at most this for each phrase the check stays under a minute. */
const ROOM_ms = 3000
const PHRASE_ms = 9000
/** The level meter of the recognizer: 0 is this, 1 is full scale. */
const METER_FLOOR_dB = -60

const dBFS = (level: number): number => METER_FLOOR_dB * (1 - level)

export function createMicCheck({ clock, phrases, makeSpeech, onHeard }: MicCheckDeps): MicCheck {
  const listeners = new Set<() => void>()
  let view: MicCheckView = { phase: 'ready' }
  let endRun: (() => void) | undefined
  let next: () => void = () => undefined

  const show = (shown: MicCheckView): void => {
    view = shown
    listeners.forEach((listen) => listen())
  }

  async function start(): Promise<void> {
    endRun?.()
    const speech = makeSpeech()
    const room: number[] = []
    const speech_dBFS: number[] = []
    let loudest = -Infinity
    let at = -1
    let right = 0
    let wrong = 0
    let state = { kind: 'loading' } as SpeechState
    let cancel: (() => void) | undefined

    const ear: PhraseEar = createPhraseEar({
      speech,
      clock,
      actAtOnce: SAFETY_COMMANDS,
      onOutcome: (outcome) => {
        if (view.phase !== 'asking') return
        if (outcome.kind === 'undo' || outcome.kind === 'unclear') return
        const text = outcome.phrase
        show({ ...view, heard: text })
        if (outcome.kind === 'refuse') return
        if (outcome.key === CHECKED[at]?.key) {
          right += 1
          speech_dBFS.push(loudest)
          onHeard()
        } else wrong += 1
        ask()
      },
    })
    const ends = [
      speech.onLevel((level) => {
        loudest = Math.max(loudest, dBFS(level))
        if (view.phase === 'room') room.push(dBFS(level))
        if (view.phase === 'room' || view.phase === 'asking') show({ ...view, level })
      }),
      speech.onState((told) => {
        state = told
        if (told.kind === 'trouble' && view.phase !== 'ready') finish(told.message)
      }),
    ]

    function end(): void {
      endRun = undefined
      next = () => undefined
      cancel?.()
      ends.forEach((each) => each())
      ear.end()
      void speech.stop()
    }

    function ask(): void {
      cancel?.()
      at += 1
      loudest = -Infinity
      const row = CHECKED[at]
      if (!row) {
        finish(undefined)
        return
      }
      const open = (openAtStep(row.step) ?? []).flatMap((key) =>
        (phrases.phrases[key] ?? []).map((phrase) => [phrase, key as CommandKey] as const),
      )
      ear.open(new Map(open))
      const phrase = phrases.phrases[row.key]?.[0] ?? ''
      show({ phase: 'asking', phrase, number: at + 1, of: CHECKED.length, level: 0 })
      cancel = clock.wakeAt(clock.read().mono_ms + PHRASE_ms, ask)
    }

    function finish(trouble: string | undefined): void {
      end()
      const asked = CHECKED.length
      const room_dBFS = quiet(room)
      const verdict = judgeMic({
        ...{ asked, right, wrong, room_dBFS, speech_dBFS },
        ...(trouble === undefined ? {} : { trouble }),
      })
      show({ phase: 'done', verdict, right, asked })
    }

    endRun = end
    next = ask
    show({ phase: 'opening' })
    await speech.start()
    if (endRun !== end) return
    if (state.kind === 'off') {
      finish('Voice is switched off in the settings.')
      return
    }
    show({ phase: 'room', level: 0 })
    cancel = clock.wakeAt(clock.read().mono_ms + ROOM_ms, ask)
  }

  return {
    current: () => view,
    subscribe(listener) {
      listeners.add(listener)
      return () => void listeners.delete(listener)
    },
    start,
    skip: () => {
      if (view.phase === 'asking') next()
    },
    stop() {
      endRun?.()
      show({ phase: 'ready' })
    },
  }
}

/** The middle of what was measured while nobody spoke. */
function quiet(levels: readonly number[]): number {
  const sorted = [...levels].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? METER_FLOOR_dB
}
