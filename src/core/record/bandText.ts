import { limit_ms, type Policy } from '../policy/policy.ts'
import { minutesSeconds } from '../time/format.ts'
import type { BandFact } from './drawFacts.ts'
import { lengthText, type NoteWords } from './noteWords.ts'

/** By how much a stretch of the band may have been over its limit, ms; 0 when it was not. */
export function bandOver_ms(band: BandFact, policy: Policy): number {
  return Math.max(0, (band.length?.most_ms ?? 0) - limit_ms(policy, 'bandLimit_s'))
}

/** `on 09:01:40, off 09:02:23, 0:43`, with the overrun if there was one. */
export function bandText(band: BandFact, policy: Policy, words: NoteWords): string {
  const on = words.say('band', 'on', { on: words.at(band.on) })
  if (!band.off || !band.length) return `${on}, ${words.word('band', 'offMissing')}`
  const length = lengthText(band.length, words)
  const off = words.say('band', 'off', { off: words.at(band.off), length })
  const over_ms = bandOver_ms(band, policy)
  if (over_ms === 0) return `${on}, ${off}`
  const limit = minutesSeconds(limit_ms(policy, 'bandLimit_s'))
  // A part of a second over is still over; it is rounded up so that it never reads 0:00.
  const over = Number.isFinite(over_ms)
    ? minutesSeconds(Math.ceil(over_ms / 1000) * 1000)
    : undefined
  return `${on}, ${off}, ${words.say('band', 'over', { limit, over })}`
}
