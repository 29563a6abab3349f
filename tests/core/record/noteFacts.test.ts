import { describe, expect, it } from 'vitest'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { missingTests } from '../../../src/core/record/missingTests.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { bloodTaken } from '../../../src/core/protocol/bloodTaken.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { lineOf, valueOf, writeSample } from '../../support/readNote.ts'
import { sampleLog, sampleOpening, type Line } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

const bloodOf = ({ entries }: ReturnType<typeof sampleLog>): number =>
  bloodTaken(replay(entries)).least_mL

describe('a discard tube in the note', () => {
  const plan = samplePlan([
    sampleTube('t1', 'plain', { role: 'discard', name: 'Discard tube' }),
    sampleTube('t2', 'activatorGel'),
    sampleTube('t3', 'edtaK2'),
  ])
  const short: readonly Line[] = [
    [123, { type: 'tubeOff', tubeId: 't1', fill: 'short' }],
    [123, { type: 'exceptionRaised', kind: 'shortFill', tubeId: 't1' }],
    [124, { type: 'exceptionEnded', kind: 'shortFill', how: 'exceptionHandled' }],
  ]
  const notes = [
    writeSample({ opening: { plan } }),
    writeSample({
      opening: { plan },
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
      add: short,
    }),
  ]

  it('is named as such, with an upper bound and not as a full or short specimen', () => {
    for (const note of notes) {
      const line = lineOf(note, '1. Discard tube')
      expect(line?.value).toMatch(/^discard tube, not sent; at most \d/)
      expect(line?.value).not.toMatch(/full|SHORT|mixed|label/)
      expect(note.text).not.toMatch(/Tube filled short/)
    }
  })

  it('leaves the places of the other tubes as they were drawn', () => {
    expect(notes[0]?.text).toMatch(/2\. Serum gel tube: full/)
  })
})

describe('what each tube is for', () => {
  it('stands under it, with its handling and its limit', () => {
    const tube = sampleTube('t2', 'activatorGel', { handling: ['ice', 'light'], timeLimit_min: 15 })
    const plan = samplePlan([sampleTube('t1', 'citrate'), tube, sampleTube('t3', 'edtaK2')])
    const { text } = writeSample({ opening: { plan } })
    expect(text).toMatch(
      /2\. Serum gel tube.*\n +Tests: test-activatorGel\n +Handling asked for: on ice at once; keep from light; within 15 min of collection/,
    )
  })
})

describe('tests without blood', () => {
  const half = {
    without: (event: { type: string; tubeId?: string }) =>
      event.tubeId === 't3' || event.type === 'drawClosed',
  }
  it('are named with why, as far as the record says', () => {
    const declined = sampleLog({
      ...half,
      add: [
        [350, { type: 'noFurtherPuncture' }],
        [380, { type: 'drawClosed', outcome: 'partial' }],
      ],
    })
    expect(missingTests(factsOf(declined))).toEqual([
      { test: 'test-edtaK2', why: 'noFurtherPuncture' },
    ])
    const withdrawn = writeSample({
      ...half,
      add: [
        [160, { type: 'exceptionRaised', kind: 'consentWithdrawn' }],
        [380, { type: 'drawClosed', outcome: 'stopped', reason: 'Patient left.' }],
      ],
    })
    expect(lineOf(withdrawn, 'test-edtaK2')?.value).toBe('not collected: consent withdrawn')
    expect(withdrawn.text).toMatch(/Reason given: Patient left\./)
    expect(missingTests(factsOf(sampleLog()))).toEqual([])
  })

  it('say so when no tube could be had for one, and are open while the draw is', () => {
    const plan = { ...samplePlan(), uncovered: [{ test: 'odd', reason: 'x' }] }
    const order = { ...sampleOpening().order, tests: ['test-edtaK2', 'odd'] }
    expect(missingTests(factsOf(sampleLog({ ...half, opening: { plan, order } })))).toEqual([
      { test: 'test-edtaK2', why: 'open' },
      { test: 'odd', why: 'noTube' },
    ])
  })
})

describe('blood in a tube that was set aside', () => {
  const dropped = sampleLog({
    add: [
      [158, { type: 'exceptionRaised', kind: 'droppedTube', tubeId: 't3' }],
      [158, { type: 'tubeSwapped', tubeId: 't3', why: 'droppedTube' }],
      [159, { type: 'tubeOn', tubeId: 't3' }],
      [165, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
    ],
  })

  it('counts as drawn, beside the one in its place', () => {
    const taken_mL = bloodOf(dropped)
    expect(taken_mL - bloodOf(sampleLog())).toBeCloseTo(4)
    expect(recordNote(dropped, texts).text).toMatch(/dropped, .*\n +Blood in it: about 4 mL/)
  })

  it('is no blood where the tube never was on', () => {
    const add: Line[] = [[149, { type: 'tubeSwapped', tubeId: 't3', why: 'expiredTube' }]]
    expect(bloodOf(sampleLog({ add }))).toBe(bloodOf(sampleLog()))
  })
})

describe('who and why', () => {
  it('tells who let a stop be passed', () => {
    const approvals = [
      { about: 'restrictedArm', by: 'Dr. Pat Placeholder', reason: 'no other vein', at_ms: 1 },
    ] as const
    expect(valueOf(writeSample({ opening: { approvals } }), 'Approved')).toBe(
      'arm with a restriction: Dr. Pat Placeholder, no other vein',
    )
  })

  it('tells the band that found the vein apart from the band of the draw', () => {
    const note = writeSample({
      add: [
        [56, { type: 'bandOn' }],
        [59, { type: 'bandOff' }],
      ],
    })
    expect(valueOf(note, 'Tourniquet to find the vein')).toBe('on 09:00:56, off 09:00:59, 0:03')
    expect(valueOf(note, 'Tourniquet')).toBe('on 09:01:40, off 09:02:23, 0:43')
  })

  it('gives the family name apart', () => {
    const patient = { ...sampleOpening().patient, familyName: 'Invented', givenNames: 'Alex' }
    expect(valueOf(writeSample({ opening: { patient } }), 'Family name, given names')).toBe(
      'Invented, Alex',
    )
  })

  it('carries what the laboratory should know', () => {
    const note = recordNote(sampleLog({ add: [[105, { type: 'fistNoted' }]] }), texts)
    const section = note.sections.find(({ title }) => title === 'For the laboratory to know')
    expect(section?.lines[0]?.value).toMatch(/A clenched fist was noted/)
  })
})
