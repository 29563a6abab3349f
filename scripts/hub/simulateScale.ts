/**
 * `npm run --silent hub:simulate [-- --clinics 10000 --chairs 20 --seed 1]`: one working day of many clinics, in
 * memory, without a server: entries a second in a clinic and in the region, storage, fan-out, and what waits behind a
 * region that was away. The same seed gives the same day. The assumptions stand in `ASSUMED`; see `hub/SCALE.md`.
 */
import { parseArgs } from 'node:util'

/** Not measured anywhere: a busy outpatient site, on the high side. */
const ASSUMED = {
  opensAt_h: 7,
  closesAt_h: 17,
  /** Share of the chairs at work by the hour; mornings are full, since many tests are fasting. */
  busy: [0.7, 1, 1, 0.9, 0.7, 0.5, 0.6, 0.5, 0.4, 0.3],
  drawsPerChairHour: 4,
  entriesOfDraw: [37, 60],
  draw_s: [240, 600],
  entrySize_B: 600,
  daysPerYear: 250,
  /** Followers of a clinic's stream: each chair, two benches, a desk, a board. */
  followersBesideChairs: 4,
  /** Clinics open an hour or two apart: time zones and habits. */
  spread_h: 2,
} as const

const { values } = parseArgs({
  options: {
    clinics: { type: 'string', default: '10000' },
    chairs: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
  },
})
const [clinics, chairs, seed] = [values.clinics, values.chairs, values.seed].map(Number) as [
  number,
  number,
  number,
]

/** A small generator with a period of 2^32 (mulberry32, in the public domain). */
function random(from: number): () => number {
  let state = from >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

const HOUR_s = 3600
const DAY_s = 24 * HOUR_s
const region = new Uint32Array(DAY_s)
const peaks: number[] = []
let [entries, draws] = [0, 0]
const next = random(seed)
const between = ([from, to]: readonly [number, number]): number => from + (to - from) * next()

for (let clinic = 0; clinic < clinics; clinic++) {
  const own = new Uint16Array(DAY_s)
  const late_s = Math.floor(next() * ASSUMED.spread_h * HOUR_s)
  for (let chair = 0; chair < chairs; chair++) {
    let at_s = ASSUMED.opensAt_h * HOUR_s + late_s + next() * 600
    for (;;) {
      const hour = Math.floor((at_s - late_s) / HOUR_s) - ASSUMED.opensAt_h
      const busy = ASSUMED.busy[hour]
      if (busy === undefined) break
      // The time to the next draw: exponential, so that patients come as they come.
      at_s += (-Math.log(1 - next()) * HOUR_s) / (ASSUMED.drawsPerChairHour * busy)
      const [length_s, n] = [between(ASSUMED.draw_s), Math.round(between(ASSUMED.entriesOfDraw))]
      if (at_s + length_s >= DAY_s) break
      draws += 1
      entries += n
      for (let i = 0; i < n; i++) {
        const second = Math.floor(at_s + next() * length_s)
        own[second]! += 1
        region[second]! += 1
      }
      at_s += length_s / 4
    }
  }
  peaks.push(own.reduce((most, now) => Math.max(most, now), 0))
}

peaks.sort((a, b) => a - b)
const at = (share: number): number =>
  peaks[Math.min(peaks.length - 1, Math.floor(share * peaks.length))]!
const peak = region.reduce((most, now) => Math.max(most, now), 0)
/** Waits behind a region that was away for an hour at the worst time, and how long it takes at so many a second. */
const worstHour = (() => {
  let [sum, most] = [0, 0]
  for (let second = 0; second < DAY_s; second++) {
    sum += region[second]! - (region[second - HOUR_s] ?? 0)
    most = Math.max(most, sum)
  }
  return most
})()
const GB = 1e9
const year_GB = (entries * ASSUMED.entrySize_B * ASSUMED.daysPerYear) / GB
const followers = chairs + ASSUMED.followersBesideChairs
console.log(
  JSON.stringify(
    {
      assumed: { clinics, chairs, seed, ...ASSUMED },
      worked: {
        drawsADay: draws,
        entriesADay: entries,
        clinic: {
          entriesADay: Math.round(entries / clinics),
          busiestSecond: { median: at(0.5), of99Percent: at(0.99), worst: at(1) },
          storageAYear_GB: Math.round((year_GB / clinics) * 100) / 100,
          followers,
          deliveredInTheWorstSecond: at(1) * followers,
        },
        region: {
          entriesInTheBusiestSecond: peak,
          storageAYear_TB: Math.round(year_GB / 100) / 10,
          storageAYearOfThreeCopies_TB: Math.round((3 * year_GB) / 100) / 10,
          streams: clinics,
          waitingAfterAnHourAway: worstHour,
        },
      },
    },
    undefined,
    2,
  ),
)
