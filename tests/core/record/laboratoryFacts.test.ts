import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { describe, expect, it } from 'vitest'
import { labelWords } from '../../../src/app/record/labelWords.ts'
import { noticeOf } from '../../../src/app/draw/noticeOf.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { texts } from '../../../src/data/en/texts.ts'
import words from '../../../src/data/en/words.json' with { type: 'json' }
import { drawDriver, toNeedleIn } from '../../support/drawDriver.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { SITE } from '../../support/planning.ts'
import { SAMPLE_DRAW_ID, sampleLog } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

const noteOf = (log: Parameters<typeof recordNote>[0]): string => recordNote(log, texts).text

describe('"mixing done" while several tubes wait', () => {
  /** Both tubes are off and neither is mixed. */
  function both() {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeOn', 'tubeFull')
    return draw
  }

  it('is taken for the one that came off first, and the screen says which', () => {
    const draw = both()
    const before = draw.state()
    draw.does('tubeMixed')
    const entries = draw.log().slice(before.last.seq)
    const notice = noticeOf(
      { before, after: draw.state(), entries, foreign: 0 },
      { words, prompts, texts },
    )
    expect(notice?.text).toBe(
      'Mixing is charted for Serum gel tube, which came off first. Still to mix: EDTA tube.',
    )
    const next = draw.state()
    draw.does('tubeMixed')
    const later = draw.log().slice(next.last.seq)
    expect(
      noticeOf(
        { before: next, after: draw.state(), entries: later, foreign: 0 },
        { words, prompts, texts },
      ),
    ).toBeUndefined()
  })

  it('stands so in the note, and only there', () => {
    const draw = both()
    draw.does('tubeMixed', 'tubeMixed')
    const log = {
      format: 'stillhand-log',
      version: 1,
      drawId: SAMPLE_DRAW_ID,
      entries: draw.log(),
    } as const
    const lines = noteOf(log).split('\n')
    const said = 'said while 2 waited, taken for the one that came off first'
    expect(lines.filter((line) => line.includes(said))).toHaveLength(1)
    expect(lines.find((line) => line.includes('Serum gel tube:'))).toContain(said)
    expect(noteOf(sampleLog())).not.toContain(said)
  })
})

describe('the way to the laboratory in the note', () => {
  it('names what a spin held', () => {
    const log = sampleLog({ add: [[2000, { type: 'spinStarted', tubeIds: ['t2'] }]] })
    expect(noteOf(log)).toMatch(/Spin started: .*: Serum gel tube D7261125000302\n/)
  })

  it('always says whether it was handed over', () => {
    expect(noteOf(sampleLog())).toContain('Handed over to the courier: not recorded')
    const took = sampleLog({ add: [[2000, { type: 'courierTook' }]] })
    expect(noteOf(took)).toMatch(/Handed over to the courier: 09:33:20/)
    const none = sampleLog({ without: (event) => 'tubeId' in event })
    expect(noteOf(none)).toContain('Handed over to the courier: no specimen to hand over')
  })
})

describe('a time limit', () => {
  const plan = samplePlan([
    sampleTube('t1', 'citrate', { timeLimit_min: 60, timeLimitOf: 'test-citrate' }),
    sampleTube('t2', 'activatorGel', { timeLimit_min: 1200 }),
    sampleTube('t3', 'edtaK2'),
  ])
  const log = sampleLog({ opening: { plan } })

  it('stands on the label with the time of day at which it ends', () => {
    // Off at 09:02:03 and 09:02:20; 1200 min after that is the next day.
    expect(labelsFor(log).map(({ limit }) => limit)).toEqual([
      { min: 60, by: '10:02' },
      { min: 1200, by: '26 Nov 2026 05:02' },
      undefined,
    ])
  })

  it('stands in the bundle with its test', () => {
    const [citrate, , edta] = ofType(bundleOf(log), 'Specimen')
    expect(citrate?.note?.map(({ text }) => text)).toContain(
      'Time limit: test-citrate, 60 min from collection, until 2026-11-25T10:02:03+01:00',
    )
    expect(JSON.stringify(edta?.note ?? [])).not.toContain('Time limit')
  })
})

describe('tests on a label', () => {
  it('stand by the names that orders use, a test of no short name by its own', () => {
    const { shortName } = labelWords({ texts, catalogue: SITE.catalogue })
    const codes = ['tsh', 'bmp', 'potassium', 'amylase', 'sodium', 'no-such-code']
    expect(codes.map(shortName)).toEqual(['TSH', 'BMP', 'K', 'Amylase', 'Na', 'no-such-code'])
  })
})
