import { describe, expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { valueOf, writeSample } from '../../support/readNote.ts'
import { samplePlan } from '../../support/samplePlan.ts'
import { sampleLog, secondCollector } from '../../support/sampleLog.ts'

describe('what happened, in the note', () => {
  it('counts attempts by person and tells each puncture', () => {
    const second = writeSample({
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
    const faint = writeSample({
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
    const flagged = writeSample({
      add: [
        [120, { type: 'flagRaised', flag: 'skinNotDry' }],
        [121, { type: 'noteAdded', text: 'Patient asked for water.' }],
      ],
    })
    expect(valueOf(flagged, '09:02:00')).toBe(
      'Skin not given its drying time before it was punctured.',
    )
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

  it('keeps the first text and puts addenda behind it', () => {
    const amended = writeSample({
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
        at: '25 Nov 2026 09:08:20 UTC+01:00',
        by: 'Sam Sample (SS)',
        text: 'Right arm.',
        why: 'Slip of the tongue.',
      },
    ])
    expect(amended.text.trimEnd().endsWith('Right arm. Reason: Slip of the tongue.')).toBe(true)
  })
})

describe('what a log holds as a code is told in words', () => {
  it('how an exception ended and why a plan changed; the words of an older log stand', () => {
    const plan = samplePlan()
    const note = writeSample({
      add: [
        [26, { type: 'exceptionRaised', kind: 'notPrepared', note: 'ate' }],
        [27, { type: 'exceptionEnded', kind: 'notPrepared', how: 'proceed' }],
        [28, { type: 'exceptionRaised', kind: 'nausea' }],
        [29, { type: 'exceptionEnded', kind: 'nausea', how: 'stop, decided by Dr. X' }],
        [30, { type: 'planRevised', plan, why: 'furtherNeedle' }],
        [31, { type: 'planRevised', plan, why: 'what was said then' }],
      ],
    })
    expect(note.text).toContain('Patient not prepared, ate; gone on with, as decided 09:00:27')
    expect(note.text).toContain('stop, decided by Dr. X 09:00:29')
    expect(valueOf(note, 'Plan changed')).toBe(
      '09:00:30: further needle; 09:00:31: what was said then',
    )
  })

  it('a tube that no plan has is said to be none of the plan', () => {
    const note = writeSample({
      add: [
        [145, { type: 'tubeOn', tubeId: 't9' }],
        [147, { type: 'tubeOff', tubeId: 't9', fill: 'full' }],
      ],
    })
    expect(note.text).toContain('Tube t9, not in the plan: full')
  })
})
