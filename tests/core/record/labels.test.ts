import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitFamilyFirst, fitName } from '../../../src/core/record/fitName.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { isSpecimenNumber, specimenNumber } from '../../../src/core/protocol/specimenNumber.ts'
import { sampleLog, secondCollector } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

/** Characters in a line, where a fit is told by them. */
const NAME_WIDTH = 26

describe('specimenNumber', () => {
  it.each([
    ['D7-20261125-0003', 't2', 'D7261125000302'],
    ['D7202611250003', 't2', 'D7261125000302'],
    ['AB23-20261125-00Z9', 't12', 'AB2326112500Z912'],
    ['odd', 't1', 'odd-01'],
    ['D7-20261125-0003', 'extra', 'D72611250003extra'],
  ])('%s and %s give %s', (drawId, tubeId, number) => {
    expect(specimenNumber(drawId, tubeId)).toBe(number)
  })

  it('is never the same for two devices, days, draws or tubes', () => {
    const part = fc.record({
      prefix: fc.stringMatching(/^[A-Z][A-Z0-9]{0,3}$/),
      day: fc.integer({ min: 1, max: 28 }),
      month: fc.integer({ min: 1, max: 12 }),
      count: fc.integer({ min: 0, max: 9999 }),
      tube: fc.integer({ min: 1, max: 99 }),
    })
    const ids = (p: {
      prefix: string
      day: number
      month: number
      count: number
      tube: number
    }) => {
      const two = (n: number): string => String(n).padStart(2, '0')
      const drawId = `${p.prefix}-2026${two(p.month)}${two(p.day)}-${String(p.count).padStart(4, '0')}`
      return [drawId, `t${p.tube}`] as const
    }
    fc.assert(
      fc.property(part, part, (a, b) => {
        const same = ids(a).join() === ids(b).join()
        expect(specimenNumber(...ids(a)) === specimenNumber(...ids(b))).toBe(same)
      }),
    )
  })

  it('is known again from a scanner, with its line end and in either case', () => {
    expect(isSpecimenNumber('d7261125000302\r\n', 'D7261125000302')).toBe(true)
    expect(isSpecimenNumber('D7261125000303', 'D7261125000302')).toBe(false)
    expect(isSpecimenNumber('', 'D7261125000302')).toBe(false)
  })
})

describe('fitName', () => {
  it.each([
    ['Alex Invented', ['Alex Invented'], false],
    ['  Alex   Invented ', ['Alex Invented'], false],
    ['Maximilian Theodore Exampleton', ['Maximilian Theodore', 'Exampleton'], false],
    [
      'Maximiliana Bartholomea Christabella Wolfeschlegelsteinhaus',
      ['Maximiliana B. C.', 'Wolfeschlegelsteinhaus'],
      true,
    ],
    ['Wolfeschlegelsteinhausenbergerdorff', ['Wolfeschlegelsteinhausenb…'], true],
    ['', [''], false],
  ])('%j becomes %j', (name, lines, shortened) => {
    expect(fitName(name, NAME_WIDTH)).toEqual({ lines, shortened })
  })

  it('never is wider or taller than the label, and is whole unless it says otherwise', () => {
    const name = fc.array(fc.stringMatching(/^[A-Za-zÀ-ž'-]{1,30}$/), {
      minLength: 1,
      maxLength: 6,
    })
    fc.assert(
      fc.property(name, (parts) => {
        const { lines, shortened } = fitName(parts.join(' '), NAME_WIDTH)
        expect(lines.length).toBeLessThanOrEqual(2)
        for (const line of lines) expect([...line].length).toBeLessThanOrEqual(NAME_WIDTH)
        if (!shortened) expect(lines.join(' ')).toBe(parts.join(' '))
        expect([...(lines[0] ?? '')][0]).toBe([...(parts[0] ?? '')][0])
      }),
    )
  })
})

describe('fitFamilyFirst', () => {
  // Last name, then first name: College of American Pathologists and laboratories' labeling pages, read second-hand.
  it.each([
    ['Invented', 'Alex', ['Invented, Alex'], false],
    ['Exampleton', 'Maximilian Theodore', ['Exampleton,', 'Maximilian Theodore'], false],
    ['Featherstonehaugh Exampleson', 'Al Bo', ['Featherstonehaugh', 'Exampleson, Al Bo'], false],
    [
      'Wolfeschlegelstein',
      'Maximiliana Bartholomea Christa',
      ['Wolfeschlegelstein,', 'Maximiliana B. C.'],
      true,
    ],
    ['Wolfeschlegelsteinhausenbergerdorff', 'Al', ['Wolfeschlegelsteinhausenb…', 'Al'], true],
    ['Oda', '', ['Oda'], false],
  ])('%s, %s', (family, given, lines, shortened) => {
    expect(fitFamilyFirst({ family, given }, NAME_WIDTH)).toEqual({ lines, shortened })
  })
})

describe('labelsFor', () => {
  it('makes one for each tube with blood, in the order drawn, with all that a label needs', () => {
    const labels = labelsFor(sampleLog())
    expect(labels.map(({ specimenNumber: number }) => number)).toEqual([
      'D7261125000301',
      'D7261125000302',
      'D7261125000303',
    ])
    expect(labels[1]).toMatchObject({
      tubeId: 't2',
      fullName: 'Alex Invented',
      birthDate: '29 Feb 1980',
      recordNumber: 'MRN-000123',
      orderNumber: 'ORD-77',
      collected: '25 Nov 2026 09:02',
      initials: 'RE',
      position: 2,
      of: 3,
      readBack: true,
      short: false,
      invented: false,
    })
  })

  it('begins with the family name where it is known', () => {
    const patient = { birthDate: '1980-02-29', recordNumber: 'M1', fullName: 'Alex Invented Jr.' }
    const parts = { familyName: 'Invented', givenNames: 'Alex' }
    const [label] = labelsFor(sampleLog({ opening: { patient: { ...patient, ...parts } } }))
    expect([label?.family, label?.given]).toEqual(['Invented', 'Alex Jr.'])
  })

  it('makes none before blood is in a tube, for a discard tube, or for an empty one', () => {
    expect(labelsFor(sampleLog({ without: ({ type }) => type === 'tubeOff' }))).toEqual([])
    const plan = samplePlan([
      sampleTube('t1', 'plain', { role: 'discard' }),
      sampleTube('t2', 'activatorGel'),
      sampleTube('t3', 'edtaK2'),
    ])
    const log = sampleLog({
      opening: { plan },
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't3',
      add: [[157, { type: 'tubeOff', tubeId: 't3', fill: 'empty' }]],
    })
    expect(labelsFor(log).map(({ tubeId }) => tubeId)).toEqual(['t2'])
  })

  it('carries the initials of the person who drew that tube', () => {
    const log = sampleLog({ add: [[149, { type: 'collectorChanged', to: secondCollector }]] })
    expect(labelsFor(log).map(({ initials }) => initials)).toEqual(['RE', 'RE', 'SS'])
  })

  it('counts only the last read-back, and only one that matched', () => {
    const wrong = sampleLog({
      add: [
        [
          341,
          { type: 'labelReadBack', tubeId: 't1', specimenNumber: 'X', how: 'scan', matches: false },
        ],
      ],
    })
    expect(labelsFor(wrong).map(({ readBack }) => readBack)).toEqual([false, true, true])
  })
})
