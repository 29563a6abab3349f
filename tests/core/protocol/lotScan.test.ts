import { describe, expect, it } from 'vitest'
import { createSeal } from '../../../src/core/log/seal.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import type { DrawState } from '../../../src/core/protocol/state.ts'
import { transition } from '../../../src/core/protocol/transition.ts'
import { usedTubes } from '../../../src/core/record/usedTubes.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { logOf, sampleLog, sha256, stampAt, straightLines } from '../../support/sampleLog.ts'

const seal = createSeal(sha256)
const NEW = '(01)09500000000017(17)280131(10)NEW-1'

/** The straight draw up to a time; its tubes t1, t2, t3 are planned of LOT-t1, LOT-t2, LOT-t3. */
const until = (at_s: number): DrawState =>
  replay(logOf(straightLines().filter(([at]) => at <= at_s)).entries)

const scan = (s: DrawState, text: string) =>
  transition(s, { type: 'scanLabel', text }, { now: stampAt(400), source: 'scanner', confirmed: false }, seal) // prettier-ignore
const events = (s: DrawState, text: string) => {
  const { decision } = scan(s, text)
  return decision.kind === 'record' ? decision.events : decision
}

describe('the lot on a tube, by scan', () => {
  it('is charted for the tube on the holder, else for the next to come', () => {
    const read = { type: 'lotRead', lot: 'NEW-1', expires: '2028-01-31', how: 'scan' }
    expect(events(until(119), NEW)).toEqual([{ ...read, tubeId: 't1' }])
    expect(events(until(131), NEW)).toEqual([{ ...read, tubeId: 't2' }])
  })

  it('scanned tube by tube before the draw, goes to each in turn', () => {
    const { state } = scan(until(45), NEW)
    expect(events(state, NEW.replace('NEW-1', 'NEW-2'))).toMatchObject([
      { tubeId: 't2', lot: 'NEW-2' },
    ])
  })

  it('is known by the plan where it is the one that was planned, with or without GS1', () => {
    expect(events(until(45), '(10)LOT-t3')).toMatchObject([{ tubeId: 't3' }])
    expect(events(until(45), 'lot-T2')).toEqual([
      { type: 'lotRead', tubeId: 't2', lot: 'LOT-t2', how: 'scan' },
    ])
  })

  it('that is past its last day opens the trouble of an expired tube', () => {
    expect(events(until(119), NEW.replace('280131', '261124'))).toEqual([
      { type: 'lotRead', tubeId: 't1', lot: 'NEW-1', expires: '2026-11-24', how: 'scan' },
      { type: 'exceptionRaised', kind: 'expiredTube', tubeId: 't1' },
    ])
    // It may be used through its last day.
    expect(events(until(119), NEW.replace('280131', '261125'))).toHaveLength(1)
  })

  it('is nobody’s when no tube is left, and nothing after the close', () => {
    expect(scan(until(325), NEW).decision).toEqual({ kind: 'impossible', why: 'noTubeLeft' })
    expect(scan(until(999), NEW).decision).toEqual({ kind: 'impossible', why: 'closed' })
  })

  it('stands in the note as scanned, is counted down, and is forgotten with the tube', () => {
    const read = { type: 'lotRead', tubeId: 't1', lot: 'NEW-1', expires: '2028-01-31', how: 'scan' } as const // prettier-ignore
    const log = sampleLog({ add: [[116, read]] })
    const { text } = writeNote(log, noteTemplate)
    expect(text).toContain('lot NEW-1, expires 31 Jan 2028 (scanned 09:01:56)')
    expect(text).not.toContain('LOT-t1')
    expect(usedTubes(log).map(({ lot }) => lot)).toEqual(['NEW-1', 'LOT-t2', 'LOT-t3'])
    const swapped = sampleLog({
      add: [[116, read], [116.5, { type: 'tubeSwapped', tubeId: 't1', why: 'expiredTube' }]], // prettier-ignore
    })
    expect(writeNote(swapped, noteTemplate).text).toContain('planned lot LOT-t1 (not scanned)')
    expect(usedTubes(swapped).map(({ lot }) => lot)).toEqual([
      'NEW-1',
      'LOT-t1',
      'LOT-t2',
      'LOT-t3',
    ])
  })
})
