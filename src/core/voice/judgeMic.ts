/** What a microphone check found. Levels in dB below full scale, as the microphone gives them. */
export interface MicFindings<Trouble extends string = string> {
  readonly asked: number
  readonly right: number
  /** Another phrase was heard instead. */
  readonly wrong: number
  /** Loudness of the room while nobody spoke. */
  readonly room_dBFS: number
  /** Loudest 100 ms of each phrase that was heard. */
  readonly speech_dBFS: readonly number[]
  /** What kept the app from hearing, if something did. */
  readonly trouble?: Trouble
}

export type MicReasonCode = 'wrong' | 'missed' | 'loudRoom' | 'tooSoft' | 'tooNear'

export type MicReason<Trouble extends string = string> =
  | {
      readonly code: MicReasonCode
      /** Phrases, where they are what counts. */
      readonly n?: number
    }
  | { readonly code: 'trouble'; readonly trouble: Trouble }

export interface MicVerdict<Trouble extends string = string> {
  readonly verdict: 'good' | 'fair' | 'poor'
  readonly reasons: readonly MicReason<Trouble>[]
}

/**
 * Levels by which a reason is given. From our own measurements with synthetic voices; no standard stands behind them.
 */
const LOUD_ROOM_dBFS = -40
const SPEECH_ABOVE_dB = 15
const TOO_NEAR_dBFS = -4

/** Whether this person, this room and this microphone will do, and why not. */
export function judgeMic<Trouble extends string>(found: MicFindings<Trouble>): MicVerdict<Trouble> {
  const { trouble, asked, right, wrong, room_dBFS } = found
  if (trouble !== undefined) return { verdict: 'poor', reasons: [{ code: 'trouble', trouble }] }
  const missed = asked - right - wrong
  const typical = median(found.speech_dBFS)
  const reasons: MicReason<Trouble>[] = []
  if (wrong > 0) reasons.push({ code: 'wrong', n: wrong })
  if (missed > 0) reasons.push({ code: 'missed', n: missed })
  if (room_dBFS > LOUD_ROOM_dBFS) reasons.push({ code: 'loudRoom' })
  if (typical !== undefined && typical - room_dBFS < SPEECH_ABOVE_dB)
    reasons.push({ code: 'tooSoft' })
  if (typical !== undefined && typical > TOO_NEAR_dBFS) reasons.push({ code: 'tooNear' })
  const share = right / Math.max(1, asked)
  if (share < 0.7 || wrong > 1) return { verdict: 'poor', reasons }
  return { verdict: reasons.length === 0 ? 'good' : 'fair', reasons }
}

/** The upper of the two in the middle where there are two; `undefined` of nothing. */
export function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
