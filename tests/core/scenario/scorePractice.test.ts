import { describe, expect, it } from 'vitest'
import { planAgain } from '../../../src/app/draw/planAgain.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import type { DrawLog, LogEntry } from '../../../src/core/protocol/entry.ts'
import type { DrawEvent, Flag } from '../../../src/core/protocol/events.ts'
import { openingOf } from '../../../src/core/record/openingOf.ts'
import { playScript } from '../../../src/core/scenario/playScript.ts'
import { actsOf } from '../../../src/core/scenario/scoredActs.ts'
import { scorePractice } from '../../../src/core/scenario/scorePractice.ts'
import { sha256 } from '../../support/sampleLog.ts'
import {
  playScenario,
  readScript,
  scenarioFiles,
  scenarioSite,
} from '../../support/scenarioSite.ts'
import { WIDE } from '../../support/wide.ts'

const SCRIPTS = scenarioFiles().map(({ name, text }) => {
  const read = readScript(text)
  if (!read.ok) throw new Error(`${name} does not read.`)
  return { name, script: read.value }
})

/** What the test driver leaves behind, and the script as played for the score. */
function played({ script }: (typeof SCRIPTS)[number]): { log: DrawLog; model: DrawLog } {
  const { log } = playScenario(script)
  const again = (s: Parameters<typeof planAgain>[0]) => planAgain(s, scenarioSite, '2026-11-25', undefined) // prettier-ignore
  return { log, model: playScript(script, openingOf(log), sha256, undefined, again) }
}

const sealedAgain = (log: DrawLog, entries: readonly Omit<LogEntry, 'hash' | 'previous'>[]) => ({
  ...log,
  entries: sealAll(
    entries.map((entry, i) => ({ ...entry, seq: i + 1 })),
    sha256,
  ),
})

const bare = ({ hash: _hash, previous: _previous, ...entry }: LogEntry) => entry

/** The same draw with an act left out, and the remarks that came with it. */
function without(log: DrawLog, type: DrawEvent['type']): DrawLog {
  const at = log.entries.findIndex(({ event }) => event.type === type)
  return sealedAgain(log, log.entries.filter((_, i) => i !== at).map(bare))
}

/** The same draw with a remark of the protocol behind an act. */
function flagged(log: DrawLog, type: DrawEvent['type'], flag: Flag): DrawLog {
  const entries = log.entries.flatMap((entry) => {
    const own = bare(entry)
    return entry.event.type === type ? [own, { ...own, event: { type: 'flagRaised' as const, flag } }] : [own] // prettier-ignore
  })
  return sealedAgain(log, entries)
}

describe('every script, done perfectly', () => {
  it.each(SCRIPTS)('$name scores full', (named) => {
    const { log, model } = played(named)
    const score = scorePractice(log, model)
    expect(score.of).toBeGreaterThan(0)
    expect(score.acts.filter(({ isDone }) => !isDone).map(({ event }) => event)).toEqual([])
    expect(score.besides).toEqual([])
    expect(score.points).toBe(score.of)
  })
})

// Each act of each script is a score of its own: the narrow run takes every fourth script.
describe('every act of every script that is left out', () => {
  it.each(SCRIPTS.filter((_script, i) => WIDE || i % 4 === 0))(
    '$name: each costs all its points and no other’s',
    (named) => {
      const { log, model } = played(named)
      const full = scorePractice(log, model)
      for (const act of actsOf(log)) {
        const less = sealedAgain(log, log.entries.filter(({ seq }) => seq !== act.seq).map(bare))
        const score = scorePractice(less, model)
        const missing = score.acts.filter(({ isDone }) => !isDone)
        // Entries that take another back name it by its number, which is another one now.
        if (log.entries.some(({ event }) => event.type === 'entryUndone')) continue
        expect(missing, act.key).toHaveLength(1)
        const own = missing[0]?.time === undefined ? 2 : 3
        // A remark that stood behind it now stands behind the act before it.
        expect(full.points - score.points, act.key).toBeGreaterThanOrEqual(own)
        expect(full.points - score.points, act.key).toBeLessThanOrEqual(own + act.flags.length)
      }
    },
  )
})

describe('mistakes in the straight draw', () => {
  const straight = SCRIPTS.find(({ name }) => name === 'straight-draw')
  if (!straight) throw new Error('no straight draw')
  const { log, model } = played(straight)
  const full = scorePractice(log, model)
  const lost = (changed: DrawLog): number => full.points - scorePractice(changed, model).points

  it.each([
    ['bandOff', 'bandOverLimit'],
    ['skinDry', 'skinNotDry'],
    ['bleedingStopped', 'pressureShort'],
    ['bandageOn', 'siteNotWatched'],
    ['labelsDone', 'labelsLate'],
  ] as const)('%s out of time costs its one point of time', (type, flag) => {
    const changed = flagged(log, type, flag)
    const times = scorePractice(changed, model).acts.flatMap(({ time }) => time ?? [])
    expect(new Set(times)).toEqual(new Set([flag]))
    const n = log.entries.filter(({ event }) => event.type === type).length
    expect(lost(changed)).toBe(n)
  })

  it.each([
    ['needleIn', 'skinNotClean'],
    ['needleIn', 'identityNotChecked'],
    ['needleOut', 'needleOutBandOn'],
  ] as const)('%s out of its place costs its one point of order', (type, flag) => {
    expect(lost(flagged(log, type, flag))).toBe(1)
  })

  it('several remarks on one place cost one point', () => {
    const twice = flagged(flagged(log, 'needleIn', 'skinNotClean'), 'needleIn', 'consentNotRecorded') // prettier-ignore
    expect(lost(twice)).toBe(1)
  })

  it('an omission costs all points of what is missing: two, or three where it has a time', () => {
    expect(lost(without(log, 'sharpsDone'))).toBe(2)
    expect(lost(without(log, 'skinDry'))).toBe(3)
  })

  it('something besides the script that is remarked on costs a point, and something harmless none', () => {
    const again = log.entries.flatMap((entry) => {
      const own = bare(entry)
      return entry.event.type === 'needleOut' ? [own, { ...own, event: { type: 'positionTaken' as const, position: 'lying' as const } }] : [own] // prettier-ignore
    })
    const harmless = sealedAgain(log, again)
    expect(lost(harmless)).toBe(0)
    expect(lost(flagged(harmless, 'positionTaken', 'thirdAttempt'))).toBeGreaterThanOrEqual(1)
  })

  it('a draw in which nothing was done has no points, never fewer', () => {
    const nothing = { ...log, entries: log.entries.slice(0, 1) }
    expect(scorePractice(nothing, model).points).toBe(0)
  })
})
