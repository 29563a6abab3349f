import { describe, expect, it } from 'vitest'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { labelsFor, type LabelModel } from '../../../src/core/record/labels.ts'
import type { Specimen } from '../../../src/core/fhir/resources.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { specimenNumber } from '../../../src/core/protocol/specimenNumber.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { DRAWS, laterSample } from '../../support/fhirDraws.ts'
import { lineOf } from '../../support/readNote.ts'
import {
  SAMPLE_DRAW_ID,
  sampleLog,
  sampleOpening,
  secondCollector,
} from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'

const { order } = sampleOpening()

/**
 * As much as one draw can be: a discard first, a tube on ice, one that fell and was replaced, a second needle in the
 * other arm by a colleague, one label of the laboratory's own, a test without blood.
 */
const full = sampleLog({
  opening: {
    order: {
      ...order,
      tests: ['test-citrate', 'test-activatorGel', 'test-edtaK2', 'test-cultureAerobic'],
    },
    plan: samplePlan([
      sampleTube('t0', 'plain', { role: 'discard', tests: [] }),
      sampleTube('t1', 'citrate', { handling: ['ice'] }),
      sampleTube('t2', 'activatorGel'),
      sampleTube('t3', 'edtaK2'),
      sampleTube('t4', 'cultureAerobic', { role: 'culture' }),
    ]),
  },
  without: (event) =>
    event.type === 'drawClosed' ||
    ('tubeId' in event && event.tubeId === 't3') ||
    event.type === 'labelsDone',
  add: [
    [115, { type: 'tubeOn', tubeId: 't0' }],
    [116.5, { type: 'tubeOff', tubeId: 't0', fill: 'short' }],
    [124, { type: 'tubeHandled', tubeId: 't1', how: 'ice' }],
    [150, { type: 'tubeOn', tubeId: 't3' }],
    [155, { type: 'exceptionRaised', kind: 'swelling' }],
    [156, { type: 'tubeOff', tubeId: 't3', fill: 'short', estimate_mL: 1 }],
    [157, { type: 'tubeSwapped', tubeId: 't3', why: 'droppedTube' }],
    [180.5, { type: 'collectorChanged', to: secondCollector }],
    [181, { type: 'punctureBegun', number: 2 }],
    [182, { type: 'siteChosen', arm: 'right', vein: 'cephalic' }],
    [183, { type: 'needleIn', attempt: 1 }],
    [185, { type: 'tubeOn', tubeId: 't3' }],
    [192, { type: 'tubeOff', tubeId: 't3', fill: 'short', estimate_mL: 1.5 }],
    [193, { type: 'tubeMixed', tubeId: 't3' }],
    [194, { type: 'tubeOn', tubeId: 't4' }],
    [196, { type: 'tubeOff', tubeId: 't4', fill: 'empty' }],
    [197, { type: 'needleOut' }],
    [329, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }],
    [
      341,
      {
        ...{ type: 'labelReadBack', tubeId: 't2', specimenNumber: 'LAB-9' },
        ...{ how: 'scan', matches: true },
      },
    ],
    [
      342,
      {
        ...{ type: 'labelReadBack', tubeId: 't3', how: 'scan', matches: true },
        specimenNumber: specimenNumber(SAMPLE_DRAW_ID, 't3'),
      },
    ],
    [380, { type: 'drawClosed', outcome: 'partial', reason: 'Enough for today.' }],
  ],
})

/** Number that a specimen goes under: the laboratory's own where it has one. */
const numberOf = ({ accessionIdentifier, identifier }: Specimen): string =>
  accessionIdentifier?.value ?? identifier[0]?.value ?? ''

/** `09:02:03` of a local ISO time. */
const clockOf = (iso: string | undefined): string => iso?.slice(11, 19) ?? ''

const noteOf = (log: DrawLog) => recordNote(log, texts)

/** Lines of the tubes in the note, `1. Citrate tube`, that hold blood. */
const tubeLines = (log: DrawLog) =>
  noteOf(log)
    .sections.filter(({ each }) => each === 'tube')
    .flatMap(({ lines }) => lines)
    .filter(({ label, value }) => /^\d+\. /.test(label) && !/empty|label not needed/i.test(value))

describe.each([['as full a draw as can be', full] as const, ...DRAWS])(
  'note, labels and bundle of %s',
  (_name, log) => {
    const labels: readonly LabelModel[] = labelsFor(log)
    const specimens = ofType(bundleOf(log), 'Specimen')

    it('speak of the same tubes under the same numbers, in one order', () => {
      expect(specimens.map(numberOf)).toEqual(labels.map((label) => label.specimenNumber))
      expect(specimens.map(({ container }) => container[0]?.type.text)).toEqual(
        labels.map(({ tubeName }) => tubeName),
      )
      const { text } = noteOf(log)
      for (const { specimenNumber: number, readBack } of labels) {
        // The note names a number where it was read back.
        if (readBack) expect(text).toContain(`label ${number}`)
      }
    })

    it('give each tube the same minute of collection', () => {
      const lines = tubeLines(log)
      specimens.forEach(({ collection }, index) => {
        const end = collection.collectedPeriod?.end ?? collection.collectedDateTime
        expect(labels[index]?.collected.slice(-5)).toBe(clockOf(end).slice(0, 5))
        const name = labels[index]?.tubeName ?? ''
        const line = lines.find(
          ({ label, value }) => label.endsWith(`. ${name}`) && value.includes(clockOf(end)),
        )
        expect(line, `${name} ${clockOf(end)}`).toBeDefined()
      })
    })

    it('give each tube the same tests and whoever drew it', () => {
      const people = new Map(
        ofType(bundleOf(log), 'Practitioner').map(({ id, identifier }) => [
          `urn:uuid:${id}`,
          identifier.at(-1)?.value,
        ]),
      )
      const asked = factsOf(log).opened.order.tests
      specimens.forEach(({ collection, request }, index) => {
        expect(people.get(collection.collector.reference ?? '')).toBe(labels[index]?.initials)
        const ordered = labels[index]?.tests.filter((test) => asked.includes(test))
        expect(request?.length ?? 0).toBe(ordered?.length)
      })
    })

    it('miss the same tests for the same reason', () => {
      const tasks = ofType(bundleOf(log), 'Task')
      const requests = ofType(bundleOf(log), 'ServiceRequest')
      for (const { focus, statusReason } of tasks) {
        const test = requests.find(({ id }) => focus?.reference === `urn:uuid:${id}`)?.code?.text
        const told = lineOf(noteOf(log), test ?? '?', 'Tests not collected')?.value
        const why = told?.replace('not collected: ', '') ?? '?'
        expect(statusReason.text?.startsWith(why), `${statusReason.text} / ${why}`).toBe(true)
      }
      const missing = noteOf(log).sections.find(({ each }) => each === 'missing')?.lines ?? []
      const named = missing.filter(({ value }) => value.startsWith('not collected'))
      const closed = log.entries.some(({ event }) => event.type === 'drawClosed')
      if (closed) expect(tasks).toHaveLength(named.length)
    })
  },
)

describe('the documents of a later sample of a series', () => {
  const bundle = bundleOf(laterSample)
  const note = noteOf(laterSample)
  const labels = labelsFor(laterSample)
  const specimens = ofType(bundle, 'Specimen')
  const told = (index: number): string =>
    (specimens[index]?.note ?? []).map(({ text }) => text).join('\n')

  it('tell each tube’s time point alike, and none where there is none', () => {
    expect(labels.map(({ timePoints }) => timePoints)).toEqual([
      [{ point: '1 h', number: 2, of: 3 }],
      [{ point: '1 h', number: 2, of: 3 }],
      [],
    ])
    const lines = note.sections.flatMap(({ lines: all }) => all)
    const points = lines.filter(({ label }) => label.trim() === 'Time point')
    expect(points.map(({ value }) => value)).toEqual([
      '1 h (2 of 3), due 08:50:00, drawn 13 min late',
      '1 h (2 of 3), due 08:50:00, drawn 13 min late',
    ])
    expect(told(0)).toContain('Time point: 1 h (2 of 3), Invented series; due 2026-11-25T08:50:00')
    expect(told(2)).not.toContain('Time point')
  })

  it('hold the due time of the latest word, and both words', () => {
    const due = ofType(bundle, 'ServiceRequest').map((request) => request.occurrenceDateTime)
    expect(due).toEqual(['2026-11-25T08:50:00+01:00', '2026-11-25T08:50:00+01:00', undefined])
    expect(lineOf(note, 'Counted from')?.value).toBe(
      'drink finished 07:45:00; drink finished corrected to 07:50:00 (told 09:06:40): read off the wall',
    )
    expect(lineOf(note, 'Sitting')?.value).toContain('begun with draw D7-20261125-0001')
  })

  it('tell the laboratory what is out of time, and the last dose', () => {
    expect(told(0)).toContain('Drawn outside its time')
    expect(told(0)).toContain('When the last dose was is not known')
    expect(told(2)).toContain('Last dose of test-edtaK2: 2026-11-25T03:00')
    expect(told(2)).toContain('Drawn 6 h after the last dose; at least 12 h are asked for')
    expect(lineOf(note, 'Last dose')?.value).toBe(
      'test-edtaK2 2026-11-25 03:00; test-citrate: not known',
    )
  })
})

describe('the documents of the full draw', () => {
  const specimens = ofType(bundleOf(full), 'Specimen')
  const note = noteOf(full)

  it('hold what they should, so that nothing above passes on nothing', () => {
    expect(labelsFor(full).map(({ tubeId }) => tubeId)).toEqual(['t1', 't2', 't3'])
    expect(labelsFor(full).map(({ collected }) => collected.slice(-5))).toEqual([
      '09:02',
      '09:02',
      '09:03',
    ])
    expect(ofType(bundleOf(full), 'Task')).toHaveLength(1)
    expect(specimens.map(({ accessionIdentifier }) => accessionIdentifier?.value)).toEqual([
      undefined,
      'LAB-9',
      undefined,
    ])
  })

  it('name the arm of each needle', () => {
    const sites = specimens.map(({ collection }) => collection.bodySite?.coding?.at(-1)?.code)
    expect(sites).toEqual(['left-medianCubital', 'left-medianCubital', 'right-cephalic'])
    expect(lineOf(note, 'Site', 'Puncture 1')?.value).toContain('left')
    expect(lineOf(note, 'Site', 'Puncture 2')?.value).toContain('right')
    const [procedure] = ofType(bundleOf(full), 'Procedure')
    expect(procedure?.bodySite).toHaveLength(2)
  })

  it('say which arm was closed in the draw, and by what', () => {
    expect(lineOf(note, 'Arm closed in this draw')?.value).toBe('left: swelling there in this draw')
    const [procedure] = ofType(bundleOf(full), 'Procedure')
    expect(JSON.stringify(procedure?.note)).toContain('left: swelling there in this draw')
  })

  it('give each tube one volume, and the sum with what was lost once', () => {
    const volumes = specimens.map(({ collection }) => collection.quantity?.value ?? NaN)
    expect(volumes).toEqual([2.7, 5, 1.5])
    for (const volume of volumes) expect(tubeText()).toContain(`${volume} mL`)
    // With the tube that fell (1 mL) and a discard of which nobody said how much.
    expect(lineOf(note, 'Drawn')?.value).toContain('10.2')
  })

  it('tell what was done to a tube at one time', () => {
    const iced = specimens[0]?.processing?.find(({ description }) => description === 'on ice')
    expect(clockOf(iced?.timeDateTime)).toBe('09:02:04')
    expect(tubeText()).toContain('on ice 09:02:04')
  })

  const tubeText = (): string =>
    note.sections
      .filter(({ each }) => each === 'tube')
      .flatMap(({ lines }) => lines.map(({ value }) => value))
      .join('\n')
})
