import { describe, expect, it } from 'vitest'
import { createSeal } from '../../../src/core/log/seal.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import { evolve, replay } from '../../../src/core/protocol/evolve.ts'
import { keptEntries } from '../../../src/core/protocol/keptEntries.ts'
import { openDraw, transition } from '../../../src/core/protocol/transition.ts'
import type { LogEntry } from '../../../src/core/protocol/entry.ts'
import type { DrawEvent } from '../../../src/core/protocol/events.ts'
import { sampleOpening, secondCollector, sha256, stampAt } from '../../support/sampleLog.ts'

const seal = createSeal(sha256)
const { entry, state } = openDraw(sampleOpening(), stampAt(0), seal)
const step = (s: typeof state, command: Parameters<typeof transition>[1], at_s: number) =>
  transition(s, command, { now: stampAt(at_s), source: 'voice', transcript: 'as said' }, seal)

describe('the step from one state to the next', () => {
  it('leaves the state it was given alone and says all that comes of the command', () => {
    const before = JSON.stringify(state)
    const next = step(state, { type: 'confirmPatient' }, 5)
    expect(JSON.stringify(state)).toBe(before)
    expect(next.decision.kind).toBe('record')
    expect(next.entries.map(({ event }) => event.type)).toEqual([
      'identifierChecked',
      'identifierChecked',
    ])
    expect(next.state).toEqual(next.entries.reduce(evolve, state))
    expect(next.entries[0]).toMatchObject({ seq: 2, by: 'c1', source: 'voice', heard: 'as said' })
  })

  it('has no entries and the same state for what is turned down or asked back', () => {
    for (const type of ['tubeFull', 'refuseConsent', 'sayAgain'] as const) {
      const next = step(state, { type }, 5)
      expect(next.entries).toEqual([])
      expect(next.state).toBe(state)
    }
  })

  it('charts a handing over by the one who hands over', () => {
    const next = step(state, { type: 'handOver', to: secondCollector }, 5)
    expect(next.entries.map(({ by }) => by)).toEqual(['c1', 'c1', 'c1'])
    expect(next.state.collector).toEqual(secondCollector)
    expect(step(next.state, { type: 'bandOn' }, 6).entries[0]?.by).toBe('c2')
  })

  it('makes a chain that holds', () => {
    let s = state
    const entries: LogEntry[] = [entry]
    for (const type of ['confirmPatient', 'confirmConsent', 'goBack', 'bandOn'] as const) {
      const next = step(s, { type }, 5 + entries.length)
      entries.push(...next.entries)
      s = next.state
    }
    const { drawId } = sampleOpening()
    const log = { format: 'stillhand-log' as const, version: 1 as const, drawId, entries }
    expect(checkLog(log, sha256)).toMatchObject({ ok: true })
    expect(replay(entries)).toEqual(s)
  })
})

describe('what counts of a log', () => {
  const undo = (seq: number, of: number): LogEntry => {
    const event: DrawEvent = { type: 'entryUndone', seq: of }
    return { ...entry, seq, event }
  }

  it('is the same for the state as for the record, also where nothing is there to take back', () => {
    const { entries } = step(state, { type: 'confirmPatient' }, 5)
    const log = [entry, ...entries, undo(4, 3), undo(5, 3), undo(6, 99)]
    expect(replay(log).kept).toEqual(keptEntries(log).kept)
    expect(keptEntries(log).kept.map(({ seq }) => seq)).toEqual([1, 2])
    expect(keptEntries(log).retracted.map(({ entry: { seq }, by }) => [seq, by.seq])).toEqual([
      [3, 4],
    ])
  })

  it('always has the opening, whatever a log claims to take back', () => {
    const log = [entry, undo(2, 1)]
    expect(replay(log).opened).toEqual(entry.event)
    expect(keptEntries(log)).toEqual({ kept: [entry], retracted: [] })
  })

  it('is nothing without an opening: such a log is no draw', () => {
    expect(() => replay([])).toThrow(RangeError)
    expect(() => replay([undo(1, 1)])).toThrow(RangeError)
  })
})
