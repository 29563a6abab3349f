import { sha256 as nobleSha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import type { DrawLog, Source, UnsealedEntry } from '../../src/core/protocol/entry.ts'
import { sealAll } from '../../src/core/log/seal.ts'
import type { Collector } from '../../src/core/order/order.ts'
import type { DrawEvent, DrawOpened } from '../../src/core/protocol/events.ts'
import { specimenNumber } from '../../src/core/protocol/specimenNumber.ts'
import type { Stamp } from '../../src/core/time/stamp.ts'
import { samplePlan, samplePolicy } from './samplePlan.ts'

/** SHA-256 for tests, by the library the app uses. */
export const sha256 = (text: string): string => bytesToHex(nobleSha256(utf8ToBytes(text)))

export const SAMPLE_DRAW_ID = 'D7-20261125-0003'
/** 2026-11-25 09:00:00 at UTC+01:00. */
export const SAMPLE_START_ms = Date.UTC(2026, 10, 25, 8, 0, 0)

export const sampleCollector: Collector = { id: 'c1', name: 'Robin Example', initials: 'RE' }
export const secondCollector: Collector = { id: 'c2', name: 'Sam Sample', initials: 'SS' }

/** Says that all of a record is of another person. */
export const wrongPersonAddendum = {
  type: 'addendumMade',
  by: sampleCollector,
  text: 'Another patient was drawn under this order.',
  why: 'Names were read out wrongly.',
  wrongPerson: true,
} as const

/** One line of a script: seconds after the opening, what happened, and if need be how it came in and by whom. */
export type Line = readonly [
  at_s: number,
  event: DrawEvent,
  extra?: { readonly source?: Source; readonly heard?: string; readonly by?: string },
]

/** The opening of an invented draw. */
export function sampleOpening(change: Partial<DrawOpened> = {}): DrawOpened {
  return {
    type: 'drawOpened',
    drawId: SAMPLE_DRAW_ID,
    device: 'D7',
    invented: false,
    site: 'Example Clinic',
    patient: {
      fullName: 'Alex Invented',
      birthDate: '1980-02-29',
      recordNumber: 'MRN-000123',
      sex: 'female',
      weight_kg: 70,
      haematocrit_pct: 42,
    },
    order: {
      orderNumber: 'ORD-77',
      tests: ['test-citrate', 'test-activatorGel', 'test-edtaK2'],
      provider: 'Dr. Pat Placeholder',
      priority: 'routine',
    },
    preparation: {
      fasted_h: 10,
      anticoagulant: 'none',
      latexAllergy: false,
      restrictions: {},
      faintedBefore: false,
    },
    needleSet: { kind: 'winged', gauge: 21, needle_mm: 19, tubing_mm: 305, tubingBore_mm: 1.14 },
    collector: sampleCollector,
    plan: samplePlan(),
    policy: samplePolicy,
    policyChanges: [],
    ...change,
  }
}

/** A whole draw without a hitch: three tubes, band 43 s, one attempt. */
export function straightLines(opening: DrawOpened = sampleOpening()): Line[] {
  const label = (tubeId: string): DrawEvent => ({
    type: 'labelReadBack',
    tubeId,
    specimenNumber: specimenNumber(opening.drawId, tubeId),
    how: 'scan',
    matches: true,
  })
  return [
    [0, opening, { source: 'app' }],
    [10, { type: 'identifierChecked', identifier: 'fullName', matches: true }],
    [10, { type: 'identifierChecked', identifier: 'birthDate', matches: true }],
    [20, { type: 'consentGiven' }, { source: 'voice', heard: 'consent given' }],
    [25, { type: 'preparationChecked' }],
    [40, { type: 'suppliesChecked' }],
    [50, { type: 'handsReady' }],
    [50, { type: 'positionTaken', position: 'seated' }],
    [55, { type: 'siteChosen', arm: 'left', vein: 'medianCubital' }],
    [60, { type: 'skinCleaned', with: 'alcohol' }],
    [95, { type: 'skinDry' }],
    [100, { type: 'bandOn' }, { source: 'voice', heard: 'band on' }],
    [112, { type: 'needleIn', attempt: 1 }, { source: 'voice', heard: 'needle in' }],
    [114, { type: 'flashSeen' }],
    [117, { type: 'tubeOn', tubeId: 't1' }],
    [123, { type: 'tubeOff', tubeId: 't1', fill: 'full' }],
    [130, { type: 'tubeMixed', tubeId: 't1' }],
    [132, { type: 'tubeOn', tubeId: 't2' }],
    [140, { type: 'tubeOff', tubeId: 't2', fill: 'full' }],
    [143, { type: 'bandOff' }, { source: 'voice', heard: 'band released' }],
    [148, { type: 'tubeMixed', tubeId: 't2' }],
    [150, { type: 'tubeOn', tubeId: 't3' }],
    [157, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
    [166, { type: 'tubeMixed', tubeId: 't3' }],
    [167, { type: 'lastTubeOff' }],
    [170, { type: 'needleOut' }],
    [170, { type: 'pressureOn' }],
    [173, { type: 'shieldClicked' }],
    [180, { type: 'sharpsDone' }],
    [300, { type: 'bleedingStopped' }],
    [312, { type: 'bandageOn' }],
    [330, label('t1'), { source: 'scanner' }],
    [335, label('t2'), { source: 'scanner' }],
    [340, label('t3'), { source: 'scanner' }],
    [345, { type: 'labelsDone' }],
    [360, { type: 'aftercareTold' }],
    [360, { type: 'handsCleaned' }],
    [370, { type: 'specimensRacked' }],
    [380, { type: 'drawClosed', outcome: 'complete' }],
  ]
}

/** Where a simulated clock stands that many seconds after the start. */
export function stampAt(at_s: number, start_ms = SAMPLE_START_ms): Stamp {
  const at_ms = start_ms + Math.round(at_s * 1000)
  return {
    at_ms,
    wall_ms: at_ms,
    mono_ms: 5000 + Math.round(at_s * 1000),
    boot: 'boot-1',
    offset_min: 60,
  }
}

/** Turns a script into a sealed log. Lines are sorted by time; equal times keep their order. */
export function logOf(lines: readonly Line[], start_ms = SAMPLE_START_ms): DrawLog {
  const sorted = [...lines].sort((a, b) => a[0] - b[0])
  const entries = sorted.map(([at_s, event, extra], index): UnsealedEntry => ({
    seq: index + 1,
    at: stampAt(at_s, start_ms),
    by: extra?.by ?? sampleCollector.id,
    source: extra?.source ?? 'touch',
    ...(extra?.heard === undefined ? {} : { heard: extra.heard }),
    event,
  }))
  const opened = entries[0]?.event
  const drawId = opened?.type === 'drawOpened' ? opened.drawId : SAMPLE_DRAW_ID
  return { format: 'stillhand-log', version: 1, drawId, entries: sealAll(entries, sha256) }
}

/** The straight draw with lines added, and with those taken out that `without` picks. */
export function sampleLog(
  change: {
    readonly opening?: Partial<DrawOpened>
    readonly add?: readonly Line[]
    readonly without?: (event: DrawEvent) => boolean
  } = {},
): DrawLog {
  const lines = straightLines(sampleOpening(change.opening))
  const kept = lines.filter(([, event]) => !change.without?.(event))
  return logOf([...kept, ...(change.add ?? [])])
}
