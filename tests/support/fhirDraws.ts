import { ADDITIVES } from '../../src/core/catalogue/additives.ts'
import { HANDLING } from '../../src/core/catalogue/handling.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import {
  logOf,
  SAMPLE_START_ms,
  sampleCollector,
  sampleLog,
  sampleOpening,
  secondCollector,
} from './sampleLog.ts'
import { samplePlan, sampleTube } from './samplePlan.ts'

const { preparation } = sampleOpening()
const { fasted_h: _fasted, ...unasked } = preparation
const allAdditives = samplePlan(
  ADDITIVES.map((additive, index) => sampleTube(`t${index + 1}`, additive)),
)

/** A draw with every additive there is. */
export const everyAdditive: DrawLog = logOf([
  [0, sampleOpening({ plan: allAdditives })],
  ...allAdditives.tubes.flatMap(({ id }, index) => [
    [10 + index * 10, { type: 'tubeOn', tubeId: id }] as const,
    [15 + index * 10, { type: 'tubeOff', tubeId: id, fill: 'full' }] as const,
  ]),
])

/** The second sample of a series: counted from a drink that was told twice, drawn late. */
export const laterSample: DrawLog = sampleLog({
  opening: {
    preparation: {
      ...preparation,
      lastDoses: [
        { test: 'test-edtaK2', at: '2026-11-25T03:00', least_h: 12 },
        { test: 'test-citrate' },
      ],
    },
    sitting: {
      series: 'D7-20261125-0001',
      parts: [
        {
          ...{ code: 'invented', name: 'Invented series', number: 2, of: 3, point: '1 h' },
          ...{ tests: ['test-activatorGel', 'test-citrate'], from: 'drinkFinished' },
          ...{ after_min: 60, tolerance_min: 5 },
        },
      ],
      moments: [{ moment: 'drinkFinished', at_ms: SAMPLE_START_ms - 75 * 60_000 }],
    },
  },
  add: [
    [
      400,
      {
        ...{ type: 'momentNoted', moment: 'drinkFinished', why: 'read off the wall' },
        at_ms: SAMPLE_START_ms - 70 * 60_000,
      },
    ],
  ],
})

/** Draws of very different kinds. */
export const DRAWS: readonly (readonly [string, DrawLog])[] = [
  ['a straight draw', sampleLog()],
  [
    'blood from a heel, filled in part',
    logOf([
      [
        0,
        sampleOpening({
          collecting: 'capillaryHeel',
          plan: samplePlan([sampleTube('t1', 'edtaK2', { nominal_mL: 0.5, planned_mL: 0.4 })]),
        }),
      ],
      [5, { type: 'siteChosen', arm: 'left' }],
      [10, { type: 'lanced', attempt: 1 }],
      [20, { type: 'tubeOn', tubeId: 't1' }],
      [40, { type: 'tubeOff', tubeId: 't1', fill: 'full' }],
      [50, { type: 'pressureOn' }],
    ]),
  ],
  [
    'a draw with a label of the laboratory’s own',
    sampleLog({
      add: [[341, { type: 'accessionTaken', tubeId: 't2', accession: 'LAB-9', how: 'scan' }]],
    }),
  ],
  [
    'a patient whose family and given names are known',
    sampleLog({
      opening: {
        patient: { ...sampleOpening().patient, familyName: 'Invented', givenNames: 'Alex' },
      },
    }),
  ],
  [
    'an order with all that can be known of it, handling of every kind, and a tube that was not drawn',
    sampleLog({
      opening: {
        order: {
          ...sampleOpening().order,
          ...{ providerNumber: 'P-1', orderedAt: '2026-11-25T08:30', ward: 'Ward 3' },
          ...{ visitNumber: 'V-9', bandNumber: 'B-7' },
        },
        plan: samplePlan([
          sampleTube('t1', 'citrate'),
          sampleTube('t2', 'activatorGel', { handling: [...HANDLING] }),
          sampleTube('t3', 'edtaK2'),
        ]),
      },
      without: (event) => 'tubeId' in event && event.tubeId === 't3',
    }),
  ],
  ['the second sample of a series, with its moment corrected and a last dose', laterSample],
  ['a practice draw', sampleLog({ opening: { invented: true } })],
  [
    'a draw with a second puncture by a colleague, difficulties and an addendum',
    sampleLog({
      add: [
        [113, { type: 'exceptionRaised', kind: 'noFlash', note: 'no blood at all' }],
        [113.3, { type: 'needleOut' }],
        [113.4, { type: 'collectorChanged', to: secondCollector }],
        [113.5, { type: 'punctureBegun', number: 2 }],
        [113.6, { type: 'siteChosen', arm: 'right', vein: 'hand' }],
        [113.8, { type: 'needleIn', attempt: 1 }],
        [171, { type: 'exceptionRaised', kind: 'faint' }],
        [172, { type: 'entryUndone', seq: 3 }],
        [500, { type: 'addendumMade', by: sampleCollector, text: 'Left arm.', why: 'Slip.' }],
      ],
    }),
  ],
  [
    'a draw with short, empty and unfinished tubes, nobody asked about fasting',
    sampleLog({
      opening: { preparation: unasked },
      without: (event) => event.type === 'tubeOff' || event.type === 'drawClosed',
      add: [
        [123, { type: 'tubeOff', tubeId: 't1', fill: 'short' }],
        [140, { type: 'tubeOff', tubeId: 't2', fill: 'empty' }],
        [900, { type: 'spinStarted', tubeIds: ['t1'] }],
      ],
    }),
  ],
  [
    'a draw that ended before a needle was in, with as little known as can be',
    logOf([
      [
        0,
        sampleOpening({
          site: '',
          patient: { fullName: 'A', birthDate: '1980-02-29', recordNumber: '' },
          order: { orderNumber: '', tests: [], priority: 'stat' },
        }),
      ],
      [5, { type: 'consentRefused' }],
      [9, { type: 'drawClosed', outcome: 'notDrawn', reason: 'Consent refused.' }],
    ]),
  ],
  [
    'a draw stopped with the needle in',
    sampleLog({
      without: (event) => event.type === 'drawClosed' || 'tubeId' in event,
      add: [[380, { type: 'drawClosed', outcome: 'stopped', reason: 'Pain.' }]],
    }),
  ],
  ['a draw with every additive there is', everyAdditive],
]
