import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Hearing, HearContext, HearOutcome } from '../../src/core/voice/hearing.ts'
import { HEAR_RULES } from '../../src/core/voice/hearRules.ts'
import { nearness } from '../../src/core/voice/nearness.ts'
import { AMID_RULES, hearAmid, type AmidLine } from '../support/amidLines.ts'
import { shippedListening } from '../support/shippedListening.ts'

const { near: limits } = shippedListening
const WORDS = [
  '[unk]',
  'band on',
  'label',
  'label wrong',
  'feeling faint',
  'how long',
  'tube',
  'yes',
]
const texts = fc.array(fc.constantFrom(...WORDS), { maxLength: 3 }).map((words) => words.join(' '))

/** Hearings of any kind, in order of time; what was measured of them within `levels`. */
const hearings = (levels: fc.Arbitrary<Partial<Hearing>>): fc.Arbitrary<AmidLine[]> =>
  fc
    .array(fc.tuple(fc.constantFrom('p', 'p', 'p', 'f'), fc.integer({ min: 20, max: 900 }), texts, levels), {
      minLength: 1,
      maxLength: 12,
    })
    .map((lines) => {
      let at_ms = 0
      return lines.map(([kind, after_ms, text, more]): AmidLine => {
        at_ms += after_ms
        return [kind, at_ms, text, more]
      })
    }) // prettier-ignore

const measured = (above: { min: number; max: number }): fc.Arbitrary<Partial<Hearing>> =>
  fc.record({
    speech_dBFS: fc.integer({ min: -50, max: -10 }),
    above_dB: fc.double({ ...above, noNaN: true }),
    onset_dB: fc.integer({ min: -10, max: 40 }),
    quiet_ms: fc.integer({ min: 0, max: 50 }).map((n) => 20 * n),
    spoken_ms: fc.integer({ min: 0, max: 100 }).map((n) => 20 * n),
    before_dB: fc.integer({ min: -40, max: 10 }),
  })
const anyLevels = measured({ min: -20, max: 40 })
const acts = (outcomes: readonly HearOutcome[]) =>
  outcomes.filter(({ kind }) => kind === 'accept' || kind === 'undo')
const before = (lines: readonly AmidLine[]) => acts(hearAmid(lines, {}, HEAR_RULES))
const now = (lines: readonly AmidLine[], context: Partial<HearContext> = {}) =>
  acts(hearAmid(lines, context, AMID_RULES))

describe('near and far', () => {
  it('adds no act and loses none where nothing is clearly louder than the talk', () => {
    const softer = measured({ min: -20, max: limits.clear_dB - 0.01 })
    fc.assert(
      fc.property(hearings(softer), (lines) => {
        expect(now(lines)).toEqual(before(lines))
      }),
      { numRuns: 500 },
    )
  })

  it('adds no act and loses none where levels are not measured', () => {
    fc.assert(
      fc.property(hearings(fc.constant({})), (lines) => {
        expect(now(lines)).toEqual(before(lines))
      }),
      { numRuns: 500 },
    )
  })

  it('loses none at any level, and the first that it adds is near, done, and behind other talk', () => {
    fc.assert(
      fc.property(hearings(anyLevels), (lines) => {
        for (let n = 1; n <= lines.length; n++) {
          const told = lines.slice(0, n)
          const old = before(told)
          const here = now(told)
          if (JSON.stringify(here) === JSON.stringify(old)) continue
          const [kind, , text, levels = {}] = told.at(-1)!
          const added = here.at(-1)
          expect(here.slice(0, -1)).toEqual(old)
          expect(added?.kind).toBe('accept')
          const phrase = added?.kind === 'accept' ? added.phrase : ''
          expect(nearness(phrase, levels, limits), `${kind} ${text}`).toBe('near')
          expect(text.startsWith('[unk] ') && text.endsWith(` ${phrase}`)).toBe(true)
          return
        }
      }),
      { numRuns: 1000 },
    )
  })

  it('asks again only once the final result is there, for a phrase that is in it', () => {
    fc.assert(
      fc.property(hearings(anyLevels), (lines) => {
        for (let n = 1; n <= lines.length; n++) {
          const fresh = hearAmid(lines.slice(0, n)).slice(hearAmid(lines.slice(0, n - 1)).length)
          const [kind, , text] = lines[n - 1]!
          fresh.forEach((outcome) => {
            if (outcome.kind === 'again')
              expect([kind, text.includes(outcome.phrase)]).toEqual(['f', true])
          })
        }
      }),
    )
  })
})

describe('held listening', () => {
  const span = fc.tuple(fc.nat(6000), fc.nat(6000)).map(([from_ms, length_ms]) => ({
    from_ms,
    to_ms: from_ms + length_ms,
  })) // prettier-ignore

  it('where it is required, only what stops acts without it', () => {
    fc.assert(
      fc.property(hearings(anyLevels), (lines) => {
        const outcomes = now(lines, { heldRequired: true })
        const keys = outcomes.flatMap((outcome) =>
          outcome.kind === 'accept' ? [outcome.key] : outcome.kind === 'undo' && outcome.meant ? [outcome.meant.key] : [],
        ) // prettier-ignore
        expect(keys.filter((key) => key !== 'faint')).toEqual([])
      }),
      { numRuns: 500 },
    )
  })

  it('where it is required, what stops acts as it did before', () => {
    const safety = fc.constantFrom('feeling faint', '[unk] feeling faint', 'feeling faint [unk]')
    fc.assert(
      fc.property(safety, anyLevels, (text, levels) => {
        const lines: AmidLine[] = [['f', 1000, text, levels]]
        expect(now(lines, { heldRequired: true })).toEqual(before(lines))
      }),
    )
  })

  it('adds nothing to what was said outside of it', () => {
    fc.assert(
      fc.property(hearings(fc.constant({})), span, (lines, { from_ms, to_ms }) => {
        const end_ms = lines.at(-1)![1]
        const held = { from_ms: from_ms + end_ms, to_ms: to_ms + end_ms }
        expect(now(lines, { held })).toEqual(before(lines))
      }),
      { numRuns: 300 },
    )
  })

  it('acts at most once for one utterance, but for phrases said in one breath', () => {
    fc.assert(
      fc.property(hearings(anyLevels), span, (lines, held) => {
        const finals = lines.filter(([kind]) => kind === 'f').length
        const early = now(lines, { held }).filter((outcome) => outcome.kind === 'accept' && outcome.early)
        expect(early.length).toBeLessThanOrEqual(finals + 1)
      }),
      { numRuns: 500 },
    ) // prettier-ignore
  })
})
