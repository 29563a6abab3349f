import type { MicLevels } from './usualLevels.ts'

/** How one wording of a command went with one person. Numbers only: no sound and no words but those of the site. */
export interface WordingCounts {
  /** In microphone checks: how often it was asked for and said. */
  readonly asked: number
  /** And of these, how often it was heard as itself. */
  readonly heard: number
  /** In draws: how often it acted, and how often that was taken back soon after. */
  readonly acted: number
  readonly takenBack: number
}

type ByWording = Readonly<Record<string, WordingCounts>>

/** What a device has learned of how one person speaks. */
export interface OwnVoice {
  /** The last day on which something was learned, `YYYY-MM-DD`: who has long not drawn here makes room for others. */
  readonly usedOn: string
  /** By command and by wording. */
  readonly counts: Readonly<Record<string, ByWording>>
  /** Of the latest checks, oldest first. */
  readonly levels: readonly MicLevels[]
  /** The wording of a command that the person chose when it was offered. */
  readonly chosen: Readonly<Record<string, string>>
  /** Draws until a change of that command's wording is offered again. */
  readonly rests: Readonly<Record<string, number>>
  /** Commands for which no change is offered any more. */
  readonly never: readonly string[]
}

/** A wording that was asked for and said. */
export interface WordingTrial {
  readonly key: string
  readonly phrase: string
  readonly isHeard: boolean
}

/** What a microphone check has learned; also one that was left before its end. */
export interface CheckFound {
  readonly trials: readonly WordingTrial[]
  /** Missing where the check had no end, or nothing was heard by which to tell the voice. */
  readonly levels?: MicLevels
}

/** A wording on which a draw acted. */
export interface VoiceAct {
  readonly key: string
  readonly phrase: string
  readonly isTakenBack: boolean
}

const NO_COUNTS: WordingCounts = { asked: 0, heard: 0, acted: 0, takenBack: 0 }

/**
 * A wording is counted up to this in checks and in draws; then all its counts are halved, so that what was long ago, in
 * another room or with another microphone, counts less and less. Our choice, no source.
 */
export const MOST_COUNTED = 40
/** Checks whose levels are kept. Our choice, no source. */
export const MOST_LEVELS = 5

export const noVoice = (day: string): OwnVoice => ({
  ...{ usedOn: day, counts: {}, levels: [], chosen: {}, rests: {}, never: [] },
})

/** How a wording went so far. */
export function countsOf({ counts }: OwnVoice, key: string, phrase: string): WordingCounts {
  const byWording = Object.hasOwn(counts, key) ? counts[key] : undefined
  return byWording && Object.hasOwn(byWording, phrase)
    ? (byWording[phrase] ?? NO_COUNTS)
    : NO_COUNTS
}

/** With what a microphone check found. */
export function afterCheck(voice: OwnVoice, { trials, levels }: CheckFound, day: string): OwnVoice {
  const counted = trials.reduce(
    (so, { key, phrase, isHeard }) =>
      counting(so, key, phrase, { ...NO_COUNTS, asked: 1, heard: isHeard ? 1 : 0 }),
    voice,
  )
  const all = levels ? [...voice.levels, levels] : voice.levels
  return { ...counted, usedOn: day, levels: all.slice(-MOST_LEVELS) }
}

/** With what a draw found; what rested rests one draw less. */
export function afterDraw(voice: OwnVoice, acts: readonly VoiceAct[], day: string): OwnVoice {
  const counted = acts.reduce(
    (so, { key, phrase, isTakenBack }) =>
      counting(so, key, phrase, { ...NO_COUNTS, acted: 1, takenBack: isTakenBack ? 1 : 0 }),
    voice,
  )
  const rests = Object.entries(voice.rests).flatMap(([key, left]) =>
    left > 1 ? [[key, left - 1] as const] : [],
  )
  return { ...counted, usedOn: day, rests: Object.fromEntries(rests) }
}

function counting(voice: OwnVoice, key: string, phrase: string, more: WordingCounts): OwnVoice {
  const had = countsOf(voice, key, phrase)
  const sum = {
    asked: had.asked + more.asked,
    heard: had.heard + more.heard,
    acted: had.acted + more.acted,
    takenBack: had.takenBack + more.takenBack,
  }
  const isMany = sum.asked > MOST_COUNTED || sum.acted > MOST_COUNTED
  const counts = isMany ? halved(sum) : sum
  const byWording = Object.hasOwn(voice.counts, key) ? voice.counts[key] : {}
  return { ...voice, counts: { ...voice.counts, [key]: { ...byWording, [phrase]: counts } } }
}

/** A part is never more than its whole, before and after. */
const halved = ({ asked, heard, acted, takenBack }: WordingCounts): WordingCounts => ({
  asked: Math.floor(asked / 2),
  heard: Math.floor(heard / 2),
  acted: Math.floor(acted / 2),
  takenBack: Math.floor(takenBack / 2),
})
