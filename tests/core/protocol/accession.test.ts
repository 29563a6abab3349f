import { describe, expect, it } from 'vitest'
import type { Command } from '../../../src/core/protocol/commands.ts'
import type { Decision } from '../../../src/core/protocol/decision.ts'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { labelNumber, unread } from '../../../src/core/protocol/facts.ts'
import type { DrawState } from '../../../src/core/protocol/state.ts'
import { transition } from '../../../src/core/protocol/transition.ts'
import { createSeal } from '../../../src/core/log/seal.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { labelIsRight } from '../../../src/core/record/labeledTubes.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { logOf, sampleLog, sampleOpening, sha256, stampAt, straightLines } from '../../support/sampleLog.ts' // prettier-ignore

const LAB: Partial<DrawOpened> = { labelsBy: 'laboratory' }

/** A draw whose three tubes are full and whose labels are to be seen to. */
const before = (opening: Partial<DrawOpened> = LAB): DrawState =>
  replay(logOf(straightLines(sampleOpening(opening)).filter(([at_s]) => at_s < 320)).entries)

const seal = createSeal(sha256)

function step(s: DrawState, command: Command, confirmed = false): [Decision, DrawState] {
  const { decision, state } = transition(
    s,
    command,
    { now: stampAt(330), source: 'scanner', confirmed },
    seal,
  )
  return [decision, state]
}
const scan = (s: DrawState, text: string, usedIn?: string, confirmed = false) =>
  step(
    s,
    usedIn === undefined ? { type: 'scanLabel', text } : { type: 'scanLabel', text, usedIn },
    confirmed,
  )

/** A draw whose tubes have the laboratory's labels A1, A2 and A3. */
function allTaken(): DrawState {
  return ['A1', 'A2', 'A3'].reduce((s, text) => scan(s, text)[1], before())
}

describe('the laboratory’s own labels', () => {
  it('are taken tube by tube, and read back by the same numbers', () => {
    const taken = allTaken()
    expect(taken.accessions).toEqual({ t1: 'A1', t2: 'A2', t3: 'A3' })
    expect(unread(taken)).toHaveLength(3)
    const read = ['a2\r\n', 'A1', 'A3'].reduce((s, text) => scan(s, text)[1], taken)
    expect(unread(read)).toEqual([])
    expect(read.flags).toEqual([])
  })

  it('are no read-back before they were scanned: there is nothing to compare with', () => {
    expect(step(before(), { type: 'labelMatches' })[0]).toEqual({
      kind: 'impossible',
      why: 'noAccession',
    })
    expect(step(allTaken(), { type: 'labelMatches' })[0]).toMatchObject({
      events: [{ type: 'labelReadBack', tubeId: 't1', specimenNumber: 'A1', matches: true }],
    })
  })

  it('raise the alarm for a label that belongs to no tube, once each has its own', () => {
    const [decision] = scan(allTaken(), 'B7')
    expect(decision).toMatchObject({
      events: [{ type: 'flagRaised', flag: 'labelMismatch', detail: 'B7' }],
    })
  })

  it('ask when a number stands on a tube of another draw, and take it only on yes', () => {
    const s = before()
    const [asked, same] = scan(s, 'B1', 'D7-20261125-0002')
    expect(asked).toEqual({ kind: 'ask', ask: 'accessionElsewhere' })
    expect(same.accessions).toEqual({})
    expect(scan(s, 'B1', 'D7-20261125-0002', true)[1].accessions).toEqual({ t1: 'B1' })
  })

  it('ask when one number is to stand on two tubes', () => {
    const [, one] = scan(before(), 'A1')
    const again: Command = { type: 'takeAccession', tubeId: 't2', text: ' a1 ' }
    expect(step(one, again)[0]).toEqual({ kind: 'ask', ask: 'accessionTwice' })
    const [, both] = step(one, again, true)
    expect(both.accessions).toEqual({ t1: 'A1', t2: 'a1' })
    // Each of the two is read back by a scan of its own.
    const [, first] = scan(both, 'A1')
    const [, second] = scan(first, 'A1')
    expect(unread(second).map(({ id }) => id)).toEqual(['t3'])
  })

  it('never are our own numbers: a label of ours that is on no tube here is another patient’s', () => {
    const stranger = 'D7261125000401'
    expect(scan(before(), stranger)[0]).toMatchObject({ events: [{ flag: 'labelMismatch' }] })
    const typed: Command = { type: 'takeAccession', tubeId: 't1', text: stranger }
    expect(step(before(), typed)[0]).toEqual({ kind: 'impossible', why: 'unknownLabel' })
  })

  it.each(['', '  ', 'x'.repeat(41), 'A\u202E1', 'A\n1'])('are not taken as %j', (text) => {
    expect(step(before(), { type: 'takeAccession', tubeId: 't1', text })[0].kind).toBe('impossible')
  })

  it('are read back anew when a tube gets another one, and lost with a tube that is set aside', () => {
    const [, read] = scan(allTaken(), 'A1')
    const [, again] = step(read, { type: 'takeAccession', tubeId: 't1', text: 'A9' })
    expect(unread(again).map(({ id }) => id)).toContain('t1')
    const [, dropped] = step(again, { type: 'raise', kind: 'droppedTube', tubeId: 't1' })
    expect(dropped.accessions).toEqual({ t2: 'A2', t3: 'A3' })
    // A redrawn tube has a number of its own: never the one that stood on the tube that is gone.
    expect(labelNumber(dropped, 't1')).toBe('D7261125000351')
  })

  it('change nothing where labels are printed here: an unknown number is a mismatch', () => {
    expect(scan(before({}), 'A1')[0]).toMatchObject({ events: [{ flag: 'labelMismatch' }] })
  })
})

describe('a wristband scanned where a label is due', () => {
  const { recordNumber } = sampleOpening().patient

  it.each([LAB, {}])('is an identity check and no label: %j', (opening) => {
    const [decision, after] = scan(before(opening), ` ${recordNumber}\r\n`)
    expect(decision).toMatchObject({
      kind: 'record',
      events: [{ type: 'identifierChecked', identifier: 'recordNumber', matches: true }],
    })
    expect(after.accessions).toEqual({})
    expect(after.flags).toEqual([])
  })

  it('is no accession number either when it is typed', () => {
    const typed: Command = { type: 'takeAccession', tubeId: 't1', text: recordNumber }
    expect(step(before(), typed)[0]).toEqual({ kind: 'impossible', why: 'unknownLabel' })
  })
})

describe('a record with the laboratory’s numbers', () => {
  const number = { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' } as const
  const log = sampleLog({
    opening: LAB,
    without: (event) => event.type === 'labelReadBack' && event.tubeId === 't2',
    add: [
      [331, number],
      [
        335,
        {
          type: 'labelReadBack',
          tubeId: 't2',
          specimenNumber: 'LAB-9',
          how: 'scan',
          matches: true,
        },
      ],
    ],
  })

  it('counts a read-back only of the number that the tube bears now', () => {
    expect(labelIsRight(factsOf(log), 't2')).toBe(true)
    const later = sampleLog({ opening: LAB, add: [[342, number]] })
    expect(labelIsRight(factsOf(later), 't2')).toBe(false)
  })

  it('prints no second label for such a tube', () => {
    expect(labelsFor(log).map(({ byLaboratory }) => byLaboratory)).toEqual([false, true, false])
  })
})
