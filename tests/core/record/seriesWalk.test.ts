import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bloodTaken } from '../../../src/core/protocol/bloodTaken.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { labeledTubes } from '../../../src/core/record/labeledTubes.ts'
import {
  movedBy,
  openMoves,
  OUTCOMES,
  seriesIn,
  seriesKey,
  walkSeries,
  WALKED_PARTS,
  WHENS,
  type SeriesLogs,
} from '../../walk/seriesWalk.ts'

/** What must hold of every series, whatever happened to it. */
function holdsTogether(logs: SeriesLogs): void {
  const series = seriesIn(logs)
  if (!series) return
  // Nothing is lost: each sitting stands once, and each record belongs to one of them.
  expect(series.sittings.map(({ part }) => part.point)).toEqual(
    WALKED_PARTS.map(({ point }) => point),
  )
  const facts = logs.map(factsOf)
  for (const { opened } of facts) expect(opened.sitting?.series).toBe(series.id)
  for (const [index, log] of logs.entries()) {
    // The label bears the time point of its own sitting.
    const own = facts[index]?.opened.sitting?.parts.map(({ point, number, of }) => ({
      ...{ point, number, of },
    }))
    for (const label of labelsFor(log)) expect(label.timePoints).toEqual(own)
  }
  for (const { key, state } of series.sittings) {
    const drawn = facts.filter(
      (each) =>
        each.opened.sitting?.parts.some(({ code, number }) => `${code}/${number}` === key) &&
        labeledTubes(each).length > 0,
    )
    // No sitting is drawn twice; a specimen is never called failed or left out.
    expect(drawn.length, `${key} ${state}`).toBeLessThanOrEqual(1)
    if (drawn.length > 0) expect(['done', 'open']).toContain(state)
  }
  // While something holds it, or once it is over, nothing can be begun.
  const begins = openMoves(logs).some(({ type }) => type === 'draw' || type === 'begin')
  if (series.holds.length > 0 || series.isOver) expect(begins).toBe(false)
}

describe('a series as a machine of its own', () => {
  const states = walkSeries()

  it('is small, and every state of it holds together', () => {
    expect(states.size).toBeGreaterThan(100)
    expect(states.size).toBeLessThan(5000)
    for (const { logs } of states.values()) holdsTogether(logs)
  })

  it('comes to each way that its sittings can stand, and to each hold', () => {
    const keys = [...states.keys()].join('\n')
    for (const state of ['todo', 'open', 'done', 'failed', 'leftOut']) expect(keys).toContain(state)
    for (const why of [
      ...['faint', 'bleedingContinues', 'swelling', 'consentRefused', 'identityMismatch'],
    ]) {
      expect(keys).toContain(why)
    }
    expect(keys).toContain('not begun')
    expect(OUTCOMES).toHaveLength(7)
    expect(WHENS).toHaveLength(3)
  })

  it('has no dead end: from every state there is a way to where nothing is left to do', () => {
    const before = new Map<string, string[]>()
    for (const [key, { next }] of states)
      for (const to of next) before.set(to, [...(before.get(to) ?? []), key])
    const safe = new Set(
      [...states].filter(([, { logs }]) => seriesIn(logs)?.isOver).map(([key]) => key),
    )
    for (const key of safe) for (const from of before.get(key) ?? []) safe.add(from)
    expect([...states.keys()].filter((key) => !safe.has(key))).toEqual([])
  })

  it('is never over while a draw of it is open', () => {
    for (const { logs } of states.values()) {
      const series = seriesIn(logs)
      const isOpen = series?.sittings.some(({ state }) => state === 'open') ?? false
      if (isOpen) expect(series?.isOver).toBe(false)
    }
  })
})

describe('random runs of a series', () => {
  it('hold together at every step, lose no record and no blood', () => {
    const picks = fc.array(fc.nat({ max: 1000 }), { minLength: 1, maxLength: 14 })
    fc.assert(
      fc.property(picks, (run) => {
        let logs: SeriesLogs = []
        let begun = 0
        for (const pick of run) {
          const moves = openMoves(logs)
          const move = moves[pick % Math.max(1, moves.length)]
          if (!move) break
          const taken = (all: SeriesLogs): number =>
            all.reduce((sum, { entries }) => sum + bloodTaken(replay(entries)).most_mL, 0)
          const before_mL = taken(logs)
          const key = seriesKey(logs)
          const next = movedBy(logs, move)
          if (move.type === 'draw' || move.type === 'begin') begun++
          expect(next).toHaveLength(begun)
          // Blood that was taken stays taken, whatever is decided afterwards.
          expect(taken(next)).toBeGreaterThanOrEqual(before_mL)
          expect(seriesKey(logs)).toBe(key)
          logs = next
          holdsTogether(logs)
        }
      }),
      { numRuns: 60 },
    )
  })
})
