import { describe, expect, it } from 'vitest'
import { layStrip } from '../../../src/core/record/layStrip.ts'
import { rulerStrip } from '../../../src/core/record/rulerStrip.ts'
import { texts } from '../../../src/data/en/texts.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  straightLines,
  type Line,
} from '../../support/sampleLog.ts'

const words = { strip: texts.pictures.strip, note: texts.note }
const s = (seconds: number): number => seconds * 1000

/** All words on the drawing, as they stand. */
function wordsOn(log: ReturnType<typeof sampleLog>): readonly string[] {
  const { shapes } = layStrip(rulerStrip(log), words, { width: 1000, hasWords: true })
  return shapes.flatMap((shape) =>
    shape.kind === 'text' && shape.look !== 'time' ? [shape.text] : [],
  )
}

/** The straight draw with a second attempt, worked out by hand from its lines. */
const SECOND: readonly Line[] = [
  [315, { type: 'punctureBegun', number: 2 }],
  [316, { type: 'siteChosen', arm: 'right', vein: 'cephalic' }],
  [318, { type: 'needleIn', attempt: 2 }],
  [320, { type: 'tubeOn', tubeId: 't3' }],
  [325, { type: 'tubeOff', tubeId: 't3', fill: 'full' }],
  [328, { type: 'needleOut' }],
]

describe('rulerStrip', () => {
  it('has bands, needle, tubes and pressure of the straight draw at the times of its script', () => {
    const strip = rulerStrip(sampleLog())
    expect(strip.bands).toMatchObject([
      { from_ms: s(100), to_ms: s(143), over_ms: 0, isSearch: false },
    ])
    expect(strip.needles).toMatchObject([{ from_ms: s(112), to_ms: s(170), attempt: 1 }])
    expect(strip.tubes.map(({ from_ms, to_ms, fill }) => [from_ms, to_ms, fill])).toEqual([
      [s(117), s(123), 'full'],
      [s(132), s(140), 'full'],
      [s(150), s(157), 'full'],
    ])
    expect(strip.pressures).toMatchObject([{ from_ms: s(170), to_ms: s(300) }])
    expect(strip.outcome).toBe('complete')
  })

  it('tells a band of 1:09 and by how much it was over 1:00', () => {
    const log = sampleLog({
      without: ({ type }) => type === 'bandOff',
      add: [[169, { type: 'bandOff' }]],
    })
    const strip = rulerStrip(log)
    expect(strip.bands).toMatchObject([{ from_ms: s(100), to_ms: s(169), over_ms: s(9) }])
    expect(wordsOn(log)).toContain('tourniquet 1:09, over 1:00')
    const { shapes } = layStrip(strip, words, { width: 1000, hasWords: true })
    const bar = shapes.find((shape) => shape.kind === 'bar' && shape.look === 'band')
    const over = shapes.find((shape) => shape.kind === 'bar' && shape.look === 'over')
    if (bar?.kind !== 'bar' || over?.kind !== 'bar') throw new Error('no bars')
    // Nine of 69 seconds are hatched, at its end.
    expect(over.width / bar.width).toBeCloseTo(9 / 69, 5)
    expect(over.x + over.width).toBeCloseTo(bar.x + bar.width, 5)
  })

  it('keeps the stretch in which the vein was looked for apart', () => {
    const log = sampleLog({ add: [[52, { type: 'bandOn' }], [57, { type: 'bandOff' }]] }) // prettier-ignore
    expect(rulerStrip(log).bands.map(({ isSearch }) => isSearch)).toEqual([true, false])
    expect(wordsOn(log)).toEqual(
      expect.arrayContaining(['tourniquet to find the vein 0:05', 'tourniquet 0:43']),
    )
  })

  it('shows every attempt, and a tube that went on again under its place', () => {
    const log = sampleLog({ add: SECOND })
    const strip = rulerStrip(log)
    expect(strip.needles.map(({ from_ms, to_ms, attempt }) => [from_ms, to_ms, attempt])).toEqual([
      [s(112), s(170), 1],
      [s(318), s(328), 2],
    ])
    expect(strip.tubes.map(({ place }) => place)).toEqual([1, 2, 3, 3])
    expect(wordsOn(log)).toContain('needle in, attempt 2')
  })

  it('names tubes by number and color word, and what is not full', () => {
    const log = sampleLog({
      without: (event) => event.type === 'tubeOff' && event.tubeId === 't2',
      add: [
        [140, { type: 'tubeOff', tubeId: 't2', fill: 'short' }],
        [160, { type: 'tubeSwapped', tubeId: 't3', why: 'droppedTube' }],
      ],
    })
    expect(wordsOn(log)).toEqual(
      expect.arrayContaining(['1 light blue', '2 gold, short', '3 lavender, lost']),
    )
  })

  it('has words for a faint, its end, a flag, another collector and an entry taken back', () => {
    const log = sampleLog({
      add: [
        [181, { type: 'exceptionRaised', kind: 'faint' }],
        [290, { type: 'exceptionEnded', kind: 'faint', how: 'exceptionHandled' }],
        [113, { type: 'flagRaised', flag: 'skinNotDry' }],
        [115, { type: 'fistNoted' }],
        [365, { type: 'entryUndone', seq: 3 }],
      ],
    })
    expect(wordsOn(log)).toEqual(
      expect.arrayContaining([
        'Patient faint',
        'Patient faint: over',
        'skin not dry',
        'fist clenched',
        'an entry taken back',
        'closed: complete',
      ]),
    )
  })

  it('leaves out what was taken back', () => {
    const lines = straightLines(sampleOpening())
    const seq = lines.findIndex(([, { type }]) => type === 'needleOut') + 1
    const strip = rulerStrip(logOf([...lines, [171, { type: 'entryUndone', seq }]]))
    expect(strip.marks.some(({ event }) => event.type === 'needleOut')).toBe(false)
    expect(strip.needles[0]?.to_ms).toBeUndefined()
  })

  it('draws a band that nobody recorded off to the end, hatched beyond the limit, and says so', () => {
    const log = sampleLog({ without: ({ type }) => type === 'bandOff' })
    expect(wordsOn(log)).toContain('tourniquet end not recorded')
    const { shapes } = layStrip(rulerStrip(log), words, { width: 1000, hasWords: true })
    expect(shapes.filter((shape) => shape.kind === 'bar' && shape.look === 'over')).toHaveLength(1)
  })

  it('does not hide that times were put right', () => {
    // The clock stood an hour ahead from the needle to the pressure; what it then wrote is an hour late.
    const log = sampleLog()
    const hour_ms = 3_600_000
    const entries = log.entries.map((entry) => {
      const ahead = entry.at.mono_ms >= 117_000 && entry.at.mono_ms < 175_000 ? hour_ms : 0
      return {
        ...entry,
        at: { ...entry.at, at_ms: entry.at.at_ms + ahead, wall_ms: entry.at.wall_ms + ahead },
      }
    })
    const strip = rulerStrip({ ...log, entries })
    expect(strip.corrections).toEqual([{ from_ms: s(112), to_ms: s(167), by_ms: -hour_ms }])
    expect(strip.needles).toMatchObject([{ from_ms: s(112), to_ms: s(170) }])
    expect(wordsOn({ ...log, entries })).toContain('times put back by 1:00:00')
  })

  it('folds a long stretch in which nothing happened and writes its length', () => {
    const { shapes } = layStrip(rulerStrip(sampleLog()), words, { width: 1000, hasWords: true })
    const folds = shapes.filter(({ look }) => look === 'fold')
    // From the sharps box at 180 s to the end of the bleeding at 300 s.
    expect(folds).toHaveLength(1)
    expect(shapes).toContainEqual(expect.objectContaining({ look: 'time', text: '2:00' }))
  })

  it('begins with the clock time of its first mark', () => {
    const { shapes } = layStrip(rulerStrip(sampleLog()), words, { width: 1000, hasWords: true })
    // Skin cleaned one minute after nine, local time.
    expect(shapes).toContainEqual(expect.objectContaining({ look: 'time', text: '09:01:00' }))
  })
})
