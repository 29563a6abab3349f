/** Loudness of a stretch of sound, dB below full scale. */
export function level_dBFS(samples: Float32Array): number {
  let sum = 0
  for (const sample of samples) sum += sample * sample
  return 10 * Math.log10(sum / Math.max(1, samples.length) + 1e-12)
}

/** Loudness of room and speech from 100 ms stretches. */
export interface RoomLevel {
  add(samples: Float32Array): void
  /** Loudest of the last second above the quietest of the last ten, dB. */
  speech_dB(): number
  /** The quietest 100 ms of the last two seconds: a room that is never quiet is too loud. */
  room_dBFS(): number
  /** 0..1 for the meter: 0 at -60 dB, 1 at full scale. */
  meter(): number
}

const SECOND = 10

export function roomLevel(): RoomLevel {
  let levels: number[] = []
  return {
    add(samples) {
      levels = [...levels.slice(-10 * SECOND + 1), level_dBFS(samples)]
    },
    speech_dB: () => Math.max(...levels.slice(-SECOND)) - Math.min(...levels),
    room_dBFS: () => (levels.length < 2 * SECOND ? -120 : Math.min(...levels.slice(-2 * SECOND))),
    meter: () => Math.max(0, Math.min(1, 1 + (levels.at(-1) ?? -120) / 60)),
  }
}
