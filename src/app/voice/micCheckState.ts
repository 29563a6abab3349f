import type { HearOutcome } from '../../core/voice/hearing.ts'
import { judgeMic, median, type MicVerdict } from '../../core/voice/judgeMic.ts'
import type { WordingTrial } from '../../core/voice/ownVoice.ts'
import {
  levelChanges,
  levelsOf,
  type LevelChange,
  type MicLevels,
} from '../../core/voice/usualLevels.ts'
import { defined } from '../../core/basics/defined.ts'
import type { SpeechTrouble } from '../../ports/speech.ts'
import type { AskedPhrase, CheckPlan } from './micCheckPlan.ts'

/** With three seconds for the room and at most this for each phrase the check stays under a minute. */
const ROOM_ms = 3000
const PHRASE_ms = 9000
/** Where nothing so far above the room was heard, nobody said the phrase, and nothing is learned of it. */
const SAID_ABOVE_dB = 10
/** The level meter of the recognizer: 0 is this, 1 is full scale. */
const METER_FLOOR_dB = -60

/** Why nothing can be heard: trouble, or voice is switched off. */
export type MicTrouble = SpeechTrouble | 'off'

/** What a running check has found so far. */
interface Found {
  readonly plan: CheckPlan
  /** Input level 0..1 of the moment. */
  readonly level: number
  /** The phase ends by itself then, monotonic ms. */
  readonly until_ms: number
  readonly room_dBFS: readonly number[]
  readonly speech_dBFS: readonly number[]
  readonly right: number
  readonly wrong: number
  /** Phrases that were said as they were asked for. */
  readonly trials: readonly WordingTrial[]
}

export type MicCheckState =
  | { readonly phase: 'ready' }
  | { readonly phase: 'opening'; readonly plan: CheckPlan }
  | ({ readonly phase: 'room' } & Found)
  | ({
      readonly phase: 'asking'
      /** Place of the phrase among those that are asked for. */
      readonly index: number
      /** Loudest since it was asked for. */
      readonly loudest_dBFS: number
      /** What was heard last, right or not. */
      readonly transcript?: string
    } & Found)
  | {
      readonly phase: 'done'
      readonly plan: CheckPlan
      readonly verdict: MicVerdict<MicTrouble>
      readonly right: number
      readonly trials: readonly WordingTrial[]
      /** Missing where there was trouble, or nothing was heard by which to tell the voice. */
      readonly levels?: MicLevels
      readonly changes: readonly LevelChange[]
    }

export type MicCheckEvent =
  | { readonly type: 'started'; readonly plan: CheckPlan }
  /** The recognizer has told how it stands, and that is not trouble. */
  | { readonly type: 'opened' }
  | { readonly type: 'troubled'; readonly trouble: MicTrouble }
  | { readonly type: 'levelChanged'; readonly level: number }
  | { readonly type: 'heard'; readonly outcome: HearOutcome }
  | { readonly type: 'timeUp' }
  | { readonly type: 'skipped' }
  | { readonly type: 'stopped' }

type Running = Extract<MicCheckState, Found>

const NOTHING_FOUND = {
  ...{ level: 0, room_dBFS: [], speech_dBFS: [], right: 0, wrong: 0, trials: [] },
} as const

/** The check after something happened at a monotonic time. Pure. */
export function micCheckAfter(
  state: MicCheckState,
  event: MicCheckEvent,
  now_ms: number,
): MicCheckState {
  switch (event.type) {
    case 'started':
      return { phase: 'opening', plan: event.plan }
    case 'stopped':
      return { phase: 'ready' }
    case 'opened':
      if (state.phase !== 'opening') return state
      return { phase: 'room', ...NOTHING_FOUND, plan: state.plan, until_ms: now_ms + ROOM_ms }
    case 'troubled':
      if (state.phase === 'ready' || state.phase === 'done') return state
      return done(isRunning(state) ? state : { ...NOTHING_FOUND, plan: state.plan }, event.trouble)
    case 'levelChanged':
      return withLevel(state, event.level)
    case 'heard':
      return state.phase === 'asking' ? afterHearing(state, event.outcome, now_ms) : state
    case 'timeUp':
      if (state.phase === 'asking') return ask(wasSaid(state) ? missed(state) : state, now_ms)
      return isRunning(state) ? ask(state, now_ms) : state
    case 'skipped':
      return state.phase === 'asking' ? ask(missed(state), now_ms) : state
  }
}

type Asking = Extract<MicCheckState, { phase: 'asking' }>

/** The phrase that is asked for now. */
export const askedNow = ({ plan, index }: Asking): AskedPhrase | undefined => plan.asked[index]

const wasSaid = ({ loudest_dBFS, room_dBFS }: Asking): boolean =>
  loudest_dBFS - (median(room_dBFS) ?? METER_FLOOR_dB) >= SAID_ABOVE_dB

const missed = (state: Asking): Asking => withTrial(state, false)

function withTrial(state: Asking, isHeard: boolean): Asking {
  const asked = askedNow(state)
  if (!asked) return state
  const { key, phrase } = asked
  return { ...state, trials: [...state.trials, { key, phrase, isHeard }] }
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

function afterHearing(state: Asking, outcome: HearOutcome, now_ms: number): MicCheckState {
  if (outcome.kind !== 'accept' && outcome.kind !== 'refuse') return state
  const heard = { ...state, transcript: outcome.phrase }
  if (outcome.kind === 'refuse') return heard
  const asked = askedNow(state)
  if (outcome.key !== asked?.key) return ask({ ...missed(heard), wrong: state.wrong + 1 }, now_ms)
  // The command was heard in another wording: whether that was said, or misheard, nobody can tell.
  const tried = outcome.phrase === asked.phrase ? withTrial(heard, true) : heard
  const speech_dBFS = [...state.speech_dBFS, state.loudest_dBFS]
  return ask({ ...tried, right: state.right + 1, speech_dBFS }, now_ms)
}

/** Asks for the next phrase; after the last one the check is done. */
function ask(state: Running, now_ms: number): MicCheckState {
  const index = state.phase === 'asking' ? state.index + 1 : 0
  if (index >= state.plan.asked.length) return done(state)
  const { plan, room_dBFS, speech_dBFS, right, wrong, trials } = state
  return {
    ...{ phase: 'asking', index, level: 0, loudest_dBFS: -Infinity },
    ...{ plan, room_dBFS, speech_dBFS, right, wrong, trials },
    until_ms: now_ms + PHRASE_ms,
  }
}

function done(found: Omit<Found, 'level' | 'until_ms'>, trouble?: MicTrouble): MicCheckState {
  const { plan, right, wrong, speech_dBFS, trials } = found
  const room_dBFS = median(found.room_dBFS) ?? METER_FLOOR_dB
  const asked = plan.asked.length
  const verdict = judgeMic(defined({ asked, right, wrong, room_dBFS, speech_dBFS, trouble }))
  const isMeasured = trouble === undefined && found.room_dBFS.length > 0
  const levels = isMeasured ? levelsOf(room_dBFS, speech_dBFS) : undefined
  const changes = levelChanges(plan.before, levels)
  return defined({ phase: 'done' as const, plan, verdict, right, trials, levels, changes })
}
