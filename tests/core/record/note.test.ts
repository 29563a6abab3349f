import { describe, expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { lineOf, valueOf, writeSample } from '../../support/readNote.ts'
import {
  logOf,
  sampleCollector,
  sampleLog,
  sampleOpening,
  type Line,
} from '../../support/sampleLog.ts'

describe('writeNote', () => {
  const note = writeSample()

  it('tells every fact of a straight draw, and misses none', () => {
    // That the tubes were handed over is not in this draw, and the note says so.
    expect(note.sections.flatMap(({ lines }) => lines).filter(({ missing }) => missing)).toEqual([
      { label: 'Handed over to the courier', value: 'not recorded', missing: true },
    ])
    expect(note.warnings).toEqual([])
    expect(note.text.replace(/last hash \w+/, 'last hash (16 digits)')).toMatchInlineSnapshot(`
      "Venipuncture note

      Draw
        Draw: D7-20261125-0003
        Date: 25 Nov 2026; times are local, UTC+01:00
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
        Identity: full name matches 09:00:10, said by the patient; birth date matches 09:00:10, said by the patient
        Consent: given 09:00:20
        Preparation: checked 09:00:25
        Fasting: 10 h
        Anticoagulant: none
        Latex allergy: no
        Allergy to a skin antiseptic: not asked
        Arms not to be used: none named
        Fainted before: no
        Supplies and expiry checked: 09:00:40
        Hands and gloves: 09:00:50
        Position: seated 09:00:50
        Attempts: Robin Example 1

      Puncture 1
        Site: left arm, median cubital vein
        Collector: Robin Example (RE)
        Needle: 21 G winged set, wall not recorded, needle 19 mm, tubing 305 mm
        Skin cleaned: 09:01:00
        Cleaned with: 70 % alcohol
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
        1. Citrate tube: full, 2.7 mL; on 09:01:57, off 09:02:03; mixed 09:02:10; planned lot LOT-t1 (not scanned), expires 30 Jun 2027; label D7261125000301 scanned 09:05:30
           Tests: test-citrate
        2. Serum gel tube: full, 5 mL; on 09:02:12, off 09:02:20; mixed 09:02:28; planned lot LOT-t2 (not scanned), expires 30 Jun 2027; label D7261125000302 scanned 09:05:35
           Tests: test-activatorGel
        3. EDTA tube: full, 4 mL; on 09:02:30, off 09:02:37; mixed 09:02:46; planned lot LOT-t3 (not scanned), expires 30 Jun 2027; label D7261125000303 scanned 09:05:40
           Tests: test-edtaK2

      Blood volume
        Drawn: about 11.7 mL
        Planned: 11.7 mL

      Events
        No reaction or difficulty was recorded.

      After the draw
        Labels read back: 3 of 3
        Labels done: 09:05:45
        Aftercare told: 09:06:00
        Gloves off, hands cleaned: 09:06:00
        Specimens racked: 09:06:10
        Handed over to the courier: not recorded

      Record
        Policy: version 1
        Log: 39 entries, last hash (16 digits)
      "
    `)
  })

  it('says that a missing fact is not recorded', () => {
    const without = writeSample({
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
    expect(valueOf(writeSample({ opening: { preparation: unasked } }), 'Fasting')).toBe(
      'not recorded',
    )
  })

  it('says at the top that a practice draw is invented', () => {
    const invented = writeSample({ opening: { invented: true } })
    expect(invented.text.split('\n')[1]).toBe(noteTemplate.invented)
  })

  it('says at the top that a draw is not closed, and which identifiers nobody confirmed', () => {
    const open = writeSample({
      without: (event) => event.type === 'drawClosed' || event.type === 'identifierChecked',
    })
    expect(open.warnings).toEqual([noteTemplate.notClosed, noteTemplate.identityUnchecked])
    const mismatch = writeSample({
      add: [[15, { type: 'identifierChecked', identifier: 'birthDate', matches: false }]],
    })
    expect(mismatch.warnings).toEqual([noteTemplate.identityUnchecked])
    expect(valueOf(mismatch, 'Identity')).toContain('birth date DOES NOT MATCH 09:00:15')
  })

  it('shows where the site policy departs from the defaults', () => {
    const changed = writeSample({
      opening: { policyChanges: [{ key: 'bandLimit_s', from: 60, to: 90 }] },
    })
    expect(valueOf(changed, 'Longest time with the tourniquet on')).toBe('90 s instead of 60 s')
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
    const unnamed = writeSample({ opening: { collector: { ...sampleCollector, name: '' } } })
    expect(valueOf(unnamed, 'Collected by')).toBe('(RE)')
  })
})
