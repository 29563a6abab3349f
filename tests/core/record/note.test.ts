import { describe, expect, it } from 'vitest'
import { writeNote, type Note } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import {
  logOf,
  sampleCollector,
  sampleLog,
  sampleOpening,
  secondCollector,
  stampAt,
  straightLines,
  type Line,
} from '../../support/sampleLog.ts'
import { sealAll } from '../../../src/core/log/seal.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import { sha256 } from '../../support/sampleLog.ts'

const lineOf = (note: Note, label: string, section?: string) =>
  note.sections
    .filter(({ title }) => section === undefined || title === section)
    .flatMap(({ lines }) => lines)
    .find((line) => line.label === label)

const valueOf = (note: Note, label: string, section?: string): string | undefined =>
  lineOf(note, label, section)?.value

const write = (change: Parameters<typeof sampleLog>[0] = {}): Note =>
  writeNote(sampleLog(change), noteTemplate)

describe('writeNote', () => {
  const note = write()

  it('tells every fact of a straight draw, and misses none', () => {
    expect(note.sections.flatMap(({ lines }) => lines).filter(({ missing }) => missing)).toEqual([])
    expect(note.warnings).toEqual([])
    expect(note.text.replace(/last hash \w+/, 'last hash (16 digits)')).toMatchInlineSnapshot(`
      "Venipuncture note

      Draw
        Draw: D7-20261125-0003
        Date: 2026-11-25; times are local, UTC+01:00
        Site: Example Clinic
        Collected by: Robin Example (RE)
        Opened: 09:00:00
        Closed: 09:06:20
        Outcome: complete

      Patient and order
        Name: Alex Invented
        Birth date: 29 Feb 1980
        Record number: MRN-000123
        Sex: female
        Weight: 70 kg
        Hematocrit on file: 42 %
        Order: ORD-77, routine
        Ordered by: Dr. Pat Placeholder
        Tests: test-citrate, test-activatorGel, test-edtaK2

      Before the draw
        Identity: full name matches 09:00:10; birth date matches 09:00:10
        Consent: given 09:00:20
        Preparation: checked 09:00:25
        Fasting: 10 h
        Anticoagulant: none
        Latex allergy: no
        Arms not to be used: none named
        Fainted before: no
        Supplies and expiry checked: 09:00:40
        Hands and gloves: 09:00:50
        Needle: 21 G winged set, needle 19 mm, tubing 305 mm
        Attempts: Robin Example 1

      Puncture 1
        Site: left arm, median cubital vein
        Collector: Robin Example (RE)
        Skin cleaned: 09:01:00
        Skin dry: 09:01:35
        Tourniquet: on 09:01:40, off 09:02:23, 0:43
        Needle in: 09:01:52
        Blood flash: 09:01:54
        Last tube off: 09:02:47
        Needle out: 09:02:50
        Safety shield: 09:02:53
        Sharps box: 09:03:00
        Pressure from: 09:02:50
        Bleeding stopped: 09:05:00
        Bandage: 09:05:12

      Tubes in the order drawn
        1. Citrate tube: full, 2.7 mL; on 09:01:57, off 09:02:03; mixed 09:02:10; lot LOT-t1, expires 2027-06-30; label D7261125000301 scanned 09:05:30
        2. Serum gel tube: full, 5 mL; on 09:02:12, off 09:02:20; mixed 09:02:28; lot LOT-t2, expires 2027-06-30; label D7261125000302 scanned 09:05:35
        3. EDTA tube: full, 4 mL; on 09:02:30, off 09:02:37; mixed 09:02:46; lot LOT-t3, expires 2027-06-30; label D7261125000303 scanned 09:05:40

      Blood volume
        Drawn: about 11.7 mL
        Planned: 11.7 mL

      Events
        No reaction or difficulty was recorded.

      After the draw
        Labels read back: 3 of 3
        Labels done: 09:05:45
        Aftercare told: 09:06:00
        Specimens racked: 09:06:10

      Record
        Policy: version 1
        Log: 37 entries, last hash (16 digits)
      "
    `)
  })

  it('takes every time from the log and from nowhere else', () => {
    const charted = new Set(
      sampleLog().entries.map(({ at }) =>
        new Date(at.at_ms + 3_600_000).toISOString().slice(11, 19),
      ),
    )
    const told = note.text.match(/\b\d\d:\d\d:\d\d\b/g) ?? []
    expect(told.length).toBeGreaterThan(20)
    expect(told.filter((time) => !charted.has(time))).toEqual([])
  })

  it('says that a missing fact is not recorded', () => {
    const without = write({
      without: ({ type }) =>
        ['consentGiven', 'bandOff', 'bleedingStopped', 'aftercareTold', 'flashSeen'].includes(type),
    })
    expect(lineOf(without, 'Consent')).toEqual({
      label: 'Consent',
      value: 'not recorded',
      missing: true,
    })
    expect(valueOf(without, 'Tourniquet')).toBe('on 09:01:40, off not recorded')
    expect(valueOf(without, 'Bleeding stopped')).toBe('not recorded')
    expect(valueOf(without, 'Aftercare told')).toBe('not recorded')
    expect(valueOf(without, 'Blood flash')).toBe('not recorded')
  })

  it('never makes a missing answer into one: fasting that was not asked', () => {
    const { preparation } = sampleOpening()
    const { fasted_h: _fasted, ...unasked } = preparation
    expect(valueOf(write({ opening: { preparation: unasked } }), 'Fasting')).toBe('not recorded')
  })

  it('tells the length of the tourniquet and by how much it was over', () => {
    expect(valueOf(note, 'Tourniquet')).toBe('on 09:01:40, off 09:02:23, 0:43')
    const over = write({
      without: ({ type }) => type === 'bandOff',
      add: [[168.2, { type: 'bandOff' }]],
    })
    expect(valueOf(over, 'Tourniquet')).toBe('on 09:01:40, off 09:02:48, 1:08, OVER 1:00 by 0:09')
  })

  it('lists tubes in the order really drawn, with what was in them', () => {
    const swapped = write({
      without: (event) => 'tubeId' in event && (event.tubeId === 't1' || event.tubeId === 't3'),
      add: [
        [117, { type: 'tubeOn', tubeId: 't3' }],
        [123, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
        [150, { type: 'tubeOn', tubeId: 't1' }],
        [160, { type: 'tubeOff', tubeId: 't1', fill: 'short', estimate_mL: 1.5 }],
      ],
    })
    const tubes = swapped.sections.find(({ title }) => title.startsWith('Tubes in'))
    expect(tubes?.lines.map(({ label }) => label)).toEqual([
      '1. EDTA tube',
      '2. Serum gel tube',
      '3. Citrate tube',
    ])
    expect(tubes?.lines[2]?.value).toContain('SHORT, 1.5 mL')
    expect(tubes?.lines[2]?.value).toContain('mixed not recorded')
    expect(valueOf(swapped, 'Drawn')).toBe('about 10.5 mL')
  })

  it('does not guess the volume of a short tube', () => {
    const short = write({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't3',
      add: [[157, { type: 'tubeOff', tubeId: 't3', fill: 'short' }]],
    })
    expect(valueOf(short, 'Drawn')).toBe(
      'at least 7.7 mL; the volume of a short tube was not given',
    )
    expect(valueOf(short, '3. EDTA tube')).toContain('SHORT, not recorded')
  })

  it('says which planned tubes were not drawn', () => {
    const fewer = write({ without: (event) => 'tubeId' in event && event.tubeId === 't3' })
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
    expect(valueOf(discard, '1. Discard')).toContain('mixed not needed')
    expect(valueOf(discard, '1. Discard')).toContain('label not needed')
  })

  it('counts attempts by person and tells each puncture', () => {
    const second = write({
      add: [
        [113, { type: 'exceptionRaised', kind: 'noFlash' }],
        [113.2, { type: 'bandOff' }],
        [113.3, { type: 'needleOut' }],
        [113.4, { type: 'collectorChanged', to: secondCollector }],
        [113.5, { type: 'punctureBegun', number: 2 }],
        [113.6, { type: 'siteChosen', arm: 'right', vein: 'cephalic' }],
        [113.8, { type: 'needleIn', attempt: 1 }],
      ],
    })
    expect(valueOf(second, 'Attempts')).toBe('Robin Example 1; Sam Sample 1')
    expect(valueOf(second, 'Site', 'Puncture 1')).toBe('left arm, median cubital vein')
    expect(valueOf(second, 'Site', 'Puncture 2')).toBe('right arm, cephalic vein')
    expect(valueOf(second, 'Collector', 'Puncture 2')).toBe('Sam Sample (SS)')
    expect(valueOf(second, 'Collected by')).toBe(
      'Robin Example (RE); Sam Sample (SS) from 09:01:53',
    )
  })

  it('says what happened and what was done about it', () => {
    const faint = write({
      add: [
        [171, { type: 'exceptionRaised', kind: 'faint', note: 'pale, sweating' }],
        [240, { type: 'exceptionEnded', kind: 'faint', how: 'exceptionHandled' }],
        [250, { type: 'exceptionRaised', kind: 'nausea' }],
      ],
    })
    const events = faint.sections.find(({ title }) => title === 'Events')
    expect(events?.lines.map(({ label, value }) => `${label} ${value}`)).toEqual([
      '09:02:51 Patient faint, pale, sweating; dealt with 09:04:00',
      '09:04:10 Patient nauseated; how it ended is not recorded',
    ])
  })

  it('shows flags in plain words and remarks as they were given', () => {
    const flagged = write({
      add: [
        [120, { type: 'flagRaised', flag: 'skinNotDry' }],
        [121, { type: 'noteAdded', text: 'Patient asked for water.' }],
      ],
    })
    expect(valueOf(flagged, '09:02:00')).toBe('Needle in before the skin had its drying time.')
    expect(valueOf(flagged, '09:02:01')).toBe('Patient asked for water.')
  })

  it('does not count what was taken back, and lists it', () => {
    const log = sampleLog({ add: [[113, { type: 'consentRefused' }]] })
    const seq = log.entries.find(({ event }) => event.type === 'consentRefused')?.seq ?? 0
    const undone = sampleLog({
      add: [
        [113, { type: 'consentRefused' }],
        [116, { type: 'entryUndone', seq }],
      ],
    })
    const said = writeNote(undone, noteTemplate)
    expect(valueOf(said, 'Consent')).toBe('given 09:00:20')
    expect(valueOf(said, '09:01:53')).toBe('consent refused, taken back 09:01:56')
  })

  it('says at the top that a practice draw is invented', () => {
    const invented = write({ opening: { invented: true } })
    expect(invented.text.split('\n')[1]).toBe(noteTemplate.invented)
  })

  it('says at the top that a draw is not closed, and which identifiers nobody confirmed', () => {
    const open = write({
      without: (event) => event.type === 'drawClosed' || event.type === 'identifierChecked',
    })
    expect(open.warnings).toEqual([noteTemplate.notClosed, noteTemplate.identityUnchecked])
    const mismatch = write({
      add: [[15, { type: 'identifierChecked', identifier: 'birthDate', matches: false }]],
    })
    expect(mismatch.warnings).toEqual([noteTemplate.identityUnchecked])
    expect(valueOf(mismatch, 'Identity')).toContain('birth date DOES NOT MATCH 09:00:15')
  })

  it('shows where the site policy departs from the defaults', () => {
    const changed = write({
      opening: { policyChanges: [{ key: 'bandLimit_s', from: 60, to: 90 }] },
    })
    expect(valueOf(changed, 'Longest time with the tourniquet on')).toBe('90 s instead of 60 s')
  })

  it('keeps the first text and puts addenda behind it', () => {
    const amended = write({
      add: [
        [
          500,
          {
            type: 'addendumMade',
            by: secondCollector,
            text: 'Right arm.',
            why: 'Slip of the tongue.',
          },
        ],
      ],
    })
    expect(valueOf(amended, 'Site', 'Puncture 1')).toBe('left arm, median cubital vein')
    expect(amended.addenda).toEqual([
      {
        at: '2026-11-25T09:08:20+01:00',
        by: 'Sam Sample (SS)',
        text: 'Right arm.',
        why: 'Slip of the tongue.',
      },
    ])
    expect(amended.text.trimEnd().endsWith('Right arm. Reason: Slip of the tongue.')).toBe(true)
  })

  it('gives the date and the offset where they are not those of the beginning', () => {
    const late = logOf(straightLines(), Date.UTC(2026, 10, 25, 22, 58, 0))
    expect(valueOf(writeNote(late, noteTemplate), 'Needle out')).toBe('00:00:50 on 2026-11-26')
    const { entries } = sampleLog()
    const shifted = entries.map(({ previous: _p, hash: _h, ...e }) =>
      e.seq > 20 ? { ...e, at: { ...e.at, offset_min: 120 } } : e,
    )
    const summer = { ...sampleLog(), entries: sealAll(shifted, sha256) }
    expect(valueOf(writeNote(summer, noteTemplate), 'Bandage')).toBe('10:05:12 (UTC+02:00)')
  })

  it('says that a length is uncertain when the clock was set meanwhile', () => {
    const { entries } = sampleLog()
    const stepped = entries.map(({ previous: _p, hash: _h, ...e }) => {
      const jump_ms = e.at.at_ms >= stampAt(130).at_ms ? 60_000 : 0
      return { ...e, at: { ...e.at, at_ms: e.at.at_ms + jump_ms, wall_ms: e.at.wall_ms + jump_ms } }
    })
    const log = { ...sampleLog(), entries: sealAll(stepped, sha256) }
    expect(valueOf(writeNote(log, noteTemplate), 'Tourniquet')).toBe(
      'on 09:01:40, off 09:03:23, 0:43 to 1:43, the clock is not certain, OVER 1:00 by 0:43',
    )
  })

  it('tells of an end before any needle without a page of blanks', () => {
    const lines: Line[] = [
      [0, sampleOpening()],
      [9, { type: 'identifierChecked', identifier: 'fullName', matches: false }],
      [10, { type: 'exceptionRaised', kind: 'identityMismatch' }],
      [20, { type: 'drawClosed', outcome: 'notDrawn', reason: 'Name differs from the order.' }],
    ]
    const stopped = writeNote(logOf(lines), noteTemplate)
    expect(stopped.sections.find(({ title }) => title === 'Puncture')?.lines).toEqual([
      { label: '', value: 'No needle was used.', missing: false },
    ])
    expect(valueOf(stopped, 'Outcome')).toBe('no blood drawn')
    expect(valueOf(stopped, 'Reason')).toBe('Name differs from the order.')
    expect(stopped.text).toContain('No tube was put on.')
  })

  it('names tests by the catalogue when it is given one', () => {
    const named = writeNote(sampleLog(), noteTemplate, (code) => `Name of ${code}`)
    expect(valueOf(named, 'Tests')).toContain('Name of test-citrate')
  })

  it('refuses a log that opens no draw', () => {
    const headless = { ...sampleLog(), entries: sampleLog().entries.slice(1) }
    expect(() => writeNote(headless, noteTemplate)).toThrow(RangeError)
  })

  it('writes who made the draw even when a person is unnamed', () => {
    const unnamed = write({ opening: { collector: { ...sampleCollector, name: '' } } })
    expect(valueOf(unnamed, 'Collected by')).toBe('(RE)')
  })
})
