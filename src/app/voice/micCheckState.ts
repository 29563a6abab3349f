import type { CommandKey } from '../../core/protocol/commands.ts'
import type { HearOutcome } from '../../core/voice/hearing.ts'
import { judgeMic, median, type MicVerdict } from '../../core/voice/judgeMic.ts'
import { defined } from '../../core/basics/defined.ts'
import type { SpeechTrouble } from '../../ports/speech.ts'

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

/** Why nothing can be heard: trouble, or voice is switched off. */
export type MicTrouble = SpeechTrouble | 'off'

/** What a running check has found so far. */
interface Found {
  /** Input level 0..1 of the moment. */
  readonly level: number
  /** The phase ends by itself then, monotonic ms. */
  readonly until_ms: number
  readonly room_dBFS: readonly number[]
  readonly speech_dBFS: readonly number[]
  readonly right: number
  readonly wrong: number
}

export type MicCheckState =
  | { readonly phase: 'ready' }
  | { readonly phase: 'opening' }
  | ({ readonly phase: 'room' } & Found)
  | ({
      readonly phase: 'asking'
      /** Place of the phrase in `CHECKED`. */
      readonly index: number
      /** Loudest since it was asked for. */
      readonly loudest_dBFS: number
      /** What was heard last, right or not. */
      readonly transcript?: string
    } & Found)
  | {
      readonly phase: 'done'
      readonly verdict: MicVerdict<MicTrouble>
      readonly right: number
    }

export type MicCheckEvent =
  | { readonly type: 'started' }
  /** The recognizer has told how it stands, and that is not trouble. */
  | { readonly type: 'opened' }
  | { readonly type: 'troubled'; readonly trouble: MicTrouble }
  | { readonly type: 'levelChanged'; readonly level: number }
  | { readonly type: 'heard'; readonly outcome: HearOutcome }
  | { readonly type: 'timeUp' }
  | { readonly type: 'skipped' }
  | { readonly type: 'stopped' }

type Running = Extract<MicCheckState, Found>

const NOTHING_FOUND = { level: 0, room_dBFS: [], speech_dBFS: [], right: 0, wrong: 0 } as const

/** The check after something happened at a monotonic time. Pure. */
export function micCheckAfter(
  state: MicCheckState,
  event: MicCheckEvent,
  now_ms: number,
): MicCheckState {
  switch (event.type) {
    case 'started':
      return { phase: 'opening' }
    case 'stopped':
      return { phase: 'ready' }
    case 'opened':
      if (state.phase !== 'opening') return state
      return { phase: 'room', ...NOTHING_FOUND, until_ms: now_ms + ROOM_ms }
    case 'troubled':
      if (state.phase === 'ready' || state.phase === 'done') return state
      return done(isRunning(state) ? state : NOTHING_FOUND, event.trouble)
    case 'levelChanged':
      return withLevel(state, event.level)
    case 'heard':
      return state.phase === 'asking' ? afterHearing(state, event.outcome, now_ms) : state
    case 'timeUp':
      return isRunning(state) ? ask(state, now_ms) : state
    case 'skipped':
      return state.phase === 'asking' ? ask(state, now_ms) : state
  }
}

const isRunning = (state: MicCheckState): state is Running =>
  state.phase === 'room' || state.phase === 'asking'

function withLevel(state: MicCheckState, level: number): MicCheckState {
  const level_dBFS = METER_FLOOR_dB * (1 - level)
  if (state.phase === 'room')
    return { ...state, level, room_dBFS: [...state.room_dBFS, level_dBFS] }
  if (state.phase !== 'asking') return state
  return { ...state, level, loudest_dBFS: Math.max(state.loudest_dBFS, level_dBFS) }
}

function afterHearing(
  state: Extract<MicCheckState, { phase: 'asking' }>,
  outcome: HearOutcome,
  now_ms: number,
): MicCheckState {
  if (outcome.kind !== 'accept' && outcome.kind !== 'refuse') return state
  const heard = { ...state, transcript: outcome.phrase }
  if (outcome.kind === 'refuse') return heard
  const right = outcome.key === CHECKED[state.index]?.key
  return ask(
    right
      ? {
          ...heard,
          right: state.right + 1,
          speech_dBFS: [...state.speech_dBFS, state.loudest_dBFS],
        }
      : { ...heard, wrong: state.wrong + 1 },
    now_ms,
  )
}

/** Asks for the next phrase; after the last one the check is done. */
function ask(state: Running, now_ms: number): MicCheckState {
  const index = state.phase === 'asking' ? state.index + 1 : 0
  if (index === CHECKED.length) return done(state)
  const { room_dBFS, speech_dBFS, right, wrong } = state
  return {
    ...{ phase: 'asking', index, level: 0, loudest_dBFS: -Infinity },
    ...{ room_dBFS, speech_dBFS, right, wrong },
    until_ms: now_ms + PHRASE_ms,
  }
}

function done(
  found: Pick<Found, 'room_dBFS' | 'speech_dBFS' | 'right' | 'wrong'>,
  trouble?: MicTrouble,
): MicCheckState {
  const { right, wrong, speech_dBFS } = found
  const room_dBFS = median(found.room_dBFS) ?? METER_FLOOR_dB
  const asked = CHECKED.length
  const verdict = judgeMic(defined({ asked, right, wrong, room_dBFS, speech_dBFS, trouble }))
  return { phase: 'done', verdict, right }
}
