/** What a microphone check found. Levels in dB below full scale, as the microphone gives them. */
export interface MicFindings {
  readonly asked: number
  readonly right: number
  /** Another phrase was heard instead. */
  readonly wrong: number
  /** Loudness of the room while nobody spoke. */
  readonly room_dBFS: number
  /** Loudest 100 ms of each phrase that was heard. */
  readonly speech_dBFS: readonly number[]
  /** Why nothing can be heard, if so. */
  readonly trouble?: string
}

export interface MicVerdict {
  readonly verdict: 'good' | 'fair' | 'poor'
  readonly reasons: readonly string[]
}

/** Levels by which a reason is given. From our own measurements with synthetic voices; no standard stands behind them. */
const LOUD_ROOM_dBFS = -40
const SPEECH_ABOVE_dB = 15
const TOO_NEAR_dBFS = -4

/** Whether this person, this room and this microphone will do, and why not. */
export function judgeMic(found: MicFindings): MicVerdict {
  if (found.trouble !== undefined) return { verdict: 'poor', reasons: [found.trouble] }
  const missed = found.asked - found.right - found.wrong
  const typical = median(found.speech_dBFS)
  const reasons = [
    ...(found.wrong > 0 ? [`${count(found.wrong)} heard as something else.`] : []),
    ...(missed > 0 ? [`${count(missed)} not heard.`] : []),
    ...(found.room_dBFS > LOUD_ROOM_dBFS
      ? ['The room is loud. Close the door or come closer.']
      : []),
    ...(typical !== undefined && typical - found.room_dBFS < SPEECH_ABOVE_dB
      ? ['You are hardly louder than the room. Come closer or use a headset.']
      : []),
    ...(typical !== undefined && typical > TOO_NEAR_dBFS
      ? ['The sound is too loud for the microphone. Move away a little or turn it down.']
      : []),
  ]
  const share = found.right / Math.max(1, found.asked)
  if (share < 0.7 || found.wrong > 1) return { verdict: 'poor', reasons }
  return { verdict: reasons.length === 0 ? 'good' : 'fair', reasons }
}

const count = (n: number): string => (n === 1 ? 'One phrase was' : `${n} phrases were`)

function median(values: readonly number[]): number | undefined {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]
}
