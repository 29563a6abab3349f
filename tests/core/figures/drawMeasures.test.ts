import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { drawMeasures } from '../../../src/core/figures/drawMeasures.ts'
import { setKey } from '../../../src/core/flow/setKey.ts'
import { readLog } from '../../../src/core/log/readLog.ts'
import { texts } from '../../../src/data/en/texts.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  sha256,
  stampAt,
  straightLines,
} from '../../support/sampleLog.ts'
import { playScenario, readScript, scenarioFiles } from '../../support/scenarioSite.ts'

const measured = (log: Parameters<typeof drawMeasures>[0]) => drawMeasures(log, texts.record)

describe('measures of one draw', () => {
  // The straight draw of the support: band 100 to 143 s, needle 112 s, last tube off 157 s; tubes 6, 8 and 7 s in a window
  // of 3 to 12 s with 6 s expected. The figures below are read off those lines.
  it('of a straight draw are those of its script', () => {
    const m = measured(sampleLog())
    expect(m.punctures).toEqual([
      {
        by: 'c1',
        tries: 1,
        gaveBlood: true,
        needleToLast_s: 45,
      },
    ])
    expect(m.bands).toEqual([{ by: 'c1', length_s: 43, isOver: false }])
    expect(m.fills.map(({ took_s, where }) => [took_s, where])).toEqual([
      [6, 'within'],
      [8, 'within'],
      [7, 'within'],
    ])
    expect(m.fills[0]?.set).toBe(setKey(sampleOpening().needleSet))
    expect(m).toMatchObject({
      practice: false,
      closed: true,
      outcome: 'complete',
      day: '2026-11-25',
      flags: [],
      reactions: [],
      specimens: 3,
      labelsRight: 3,
      pastLimit: 0,
    })
  })

  it('hold nothing of the patient, the order or the provider', () => {
    const text = JSON.stringify(measured(sampleLog()))
    for (const word of ['Alex', 'Invented', 'MRN', '1980', 'ORD-77', 'Placeholder', 'test-'])
      expect(text).not.toContain(word)
  })

  it('count what happened: a reaction, a second needle, a band over its limit, a label nobody read', () => {
    const m = measured(
      sampleLog({
        without: (event) =>
          event.type === 'bandOff' || (event.type === 'labelReadBack' && event.tubeId === 't2'),
        add: [
          [105, { type: 'needleIn', attempt: 1 }],
          [106, { type: 'needleOut' }],
          [165, { type: 'bandOff' }],
          [168, { type: 'exceptionRaised', kind: 'faint' }],
          [169, { type: 'flagRaised', flag: 'bandOverLimit' }],
        ],
      }),
    )
    expect(m.reactions).toEqual(['faint'])
    expect(m.flags).toEqual(['bandOverLimit'])
    expect(m.punctures.map(({ tries, gaveBlood }) => [tries, gaveBlood])).toEqual([
      [1, false],
      [1, true],
    ])
    // It was on over both needles.
    expect(m.bands).toEqual([{ by: 'c1', length_s: 65, isOver: true }])
    expect([m.specimens, m.labelsRight]).toEqual([3, 2])
  })

  it('count what the laboratory rejected', () => {
    const m = measured(
      sampleLog({ add: [[4000, { type: 'labRejected', tubeIds: ['t1'], reason: 'RH' }]] }),
    )
    expect(m.rejected).toBe(1)
  })

  it('leave out what was taken back', () => {
    const log = sampleLog({ add: [[168, { type: 'exceptionRaised', kind: 'faint' }]] })
    const seq = log.entries.find(({ event }) => event.type === 'exceptionRaised')?.seq ?? 0
    const lines = log.entries.map(
      ({ at, event }) => [(at.at_ms - stampAt(0).at_ms) / 1000, event] as const,
    )
    const undone = logOf([...lines, [381, { type: 'entryUndone', seq }]])
    expect(measured(undone).reactions).toEqual([])
  })

  it('tell no time over which the clock stepped', () => {
    const lines = straightLines()
    const log = logOf(lines)
    // From the needle on the wall clock stands ten minutes ahead, and nobody can know whether the machine slept.
    const entries = log.entries.map((entry) =>
      entry.at.at_ms < stampAt(112).at_ms
        ? entry
        : {
            ...entry,
            at: {
              ...entry.at,
              at_ms: entry.at.at_ms + 600_000,
              wall_ms: entry.at.wall_ms + 600_000,
            },
          },
    )
    const [band] = measured({ ...log, entries }).bands
    expect(band?.length_s).toBeUndefined()
    // It may have been over, so it counts as over, as the record tells it.
    expect(band?.isOver).toBe(true)
  })

  it('tell no filling time of a tube under which the flow was lost, of a short one and of a discard', () => {
    const short = measured(
      sampleLog({
        without: (event) => event.type === 'tubeOff' && event.tubeId === 't1',
        add: [
          [123, { type: 'tubeOff', tubeId: 't1', fill: 'short', estimate_mL: 1 }],
          [135, { type: 'exceptionRaised', kind: 'flowLost', tubeId: 't2' }],
        ],
      }),
    )
    expect(short.fills).toHaveLength(1)
  })

  it('take a tube’s prediction from the plan in force when it went on', () => {
    const opening = sampleOpening()
    const later = {
      ...opening.plan,
      tubes: opening.plan.tubes.map((tube) => ({
        ...tube,
        fill: { early_s: 30, expected_s: 60, late_s: 120 },
      })),
    }
    const m = measured(
      sampleLog({ add: [[148, { type: 'planRevised', plan: later, why: 'otherSet' }]] }),
    )
    expect(m.fills.map(({ expected_s }) => expected_s)).toEqual([6, 6, 60])
  })
})

describe('a log of the first format', () => {
  it('is measured as it is read today', () => {
    const url = new URL('../../fixtures/logs/version0.json', import.meta.url)
    const read = readLog(readFileSync(url, 'utf8'), sha256)
    if (!read.ok) throw new Error('The fixture does not read.')
    const m = measured(read.value.log)
    // What the fixture holds is told beside it: one needle, one tourniquet, tubes that came off full.
    expect(m.bands.length).toBeGreaterThan(0)
    expect(m.punctures.reduce((all, { tries }) => all + tries, 0)).toBeGreaterThan(0)
    for (const { length_s = 0 } of m.bands) expect(length_s).toBeGreaterThan(0)
  })
})

describe('every practice script', () => {
  it.each(scenarioFiles())('$name can be measured, and is practice', ({ text }) => {
    const script = readScript(text)
    if (!script.ok) throw new Error('The script does not read.')
    const { log } = playScenario(script.value)
    const m = measured(log)
    expect(m.practice).toBe(true)
    for (const { needleToLast_s = 0 } of m.punctures)
      expect(needleToLast_s).toBeGreaterThanOrEqual(0)
    for (const { length_s = 0 } of m.bands) expect(length_s).toBeGreaterThanOrEqual(0)
  })
})
