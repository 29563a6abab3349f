import { describe, expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { valueOf, writeSample } from '../../support/readNote.ts'
import { logOf, sampleOpening, type Line } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

describe('the tubes in the note', () => {
  it('lists tubes in the order really drawn, with what was in them', () => {
    const swapped = writeSample({
      without: (event) => 'tubeId' in event && (event.tubeId === 't1' || event.tubeId === 't3'),
      add: [
        [117, { type: 'tubeOn', tubeId: 't3' }],
        [123, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
        [150, { type: 'tubeOn', tubeId: 't1' }],
        [160, { type: 'tubeOff', tubeId: 't1', fill: 'short', estimate_mL: 1.5 }],
      ],
    })
    const tubes = swapped.sections.find(({ title }) => title.startsWith('Tubes in'))
    const lines = tubes?.lines.filter(({ label }) => /^\d/.test(label))
    expect(lines?.map(({ label }) => label)).toEqual([
      '1. EDTA tube',
      '2. Serum gel tube',
      '3. Citrate tube',
    ])
    expect(lines?.[2]?.value).toContain('SHORT, 1.5 mL')
    expect(lines?.[2]?.value).toContain('mixed not recorded')
    expect(valueOf(swapped, 'Drawn')).toBe('about 10.5 mL')
  })

  it('does not guess the volume of a short tube', () => {
    const short = writeSample({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't3',
      add: [[157, { type: 'tubeOff', tubeId: 't3', fill: 'short' }]],
    })
    expect(valueOf(short, 'Drawn')).toBe(
      'at least 7.7 mL; the volume of a short tube was not given',
    )
    expect(valueOf(short, '3. EDTA tube')).toContain('SHORT, not recorded')
  })

  it('says which planned tubes were not drawn', () => {
    const fewer = writeSample({ without: (event) => 'tubeId' in event && event.tubeId === 't3' })
    expect(valueOf(fewer, 'EDTA tube', 'Planned and not drawn')).toBe('test-edtaK2')
  })

  it('asks for no mixing and no label where there is none', () => {
    const plan = samplePlan([
      sampleTube('t1', 'plain', {
        role: 'discard',
        name: 'Discard',
        inversions: { min: 0, max: 0 },
      }),
    ])
    const lines: Line[] = [
      [0, sampleOpening({ plan })],
      [5, { type: 'tubeOn', tubeId: 't1' }],
      [9, { type: 'tubeOff', tubeId: 't1', fill: 'full' }],
    ]
    const discard = writeNote(logOf(lines), noteTemplate)
    // What a discard never has is not told of it.
    expect(valueOf(discard, '1. Discard')).toMatch(/^discard tube, not sent/)
    expect(valueOf(discard, '1. Discard')).not.toMatch(/mixed|label/)
  })
})

describe('a tube with the laboratory’s own label', () => {
  it('is told by the laboratory’s number', () => {
    const note = writeSample({
      without: (event) => event.type === 'labelReadBack' && event.tubeId === 't2',
      add: [
        [331, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }],
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
    expect(note.text).toMatch(/label LAB-9 \(the laboratory’s number\) scanned 09:05:35/)
    expect(note.text).not.toContain('D7261125000302')
  })
})
