import { describe, expect, it } from 'vitest'
import { layDay } from '../../../src/core/figures/layDay.ts'
import { rulerStrip } from '../../../src/core/record/rulerStrip.ts'
import { stripSvg } from '../../../src/core/record/stripSvg.ts'
import { texts } from '../../../src/data/en/texts.ts'
import {
  logOf,
  sampleLog,
  sampleOpening,
  SAMPLE_START_ms,
  straightLines,
} from '../../support/sampleLog.ts'

const { dayPicture } = texts.figures
const HOUR_ms = 3_600_000

const stripAt = (drawId: string, hours: number, add: Parameters<typeof logOf>[0] = []) =>
  rulerStrip(logOf([...straightLines(sampleOpening({ drawId })), ...add], SAMPLE_START_ms + hours * HOUR_ms)) // prettier-ignore

describe('the draws of a day under each other', () => {
  const late = stripAt('D7-20261125-0002', 2)
  const early = stripAt('D7-20261125-0001', 0)
  const drawing = layDay([late, early], dayPicture, 1000)

  it('stand in the order of the day, each with its first needle on the same line', () => {
    const numbers = drawing.shapes.flatMap((shape) => (shape.kind === 'text' && shape.look === 'word' ? [shape.text] : [])) // prettier-ignore
    expect(numbers).toEqual(['D7-20261125-0001', 'D7-20261125-0002'])
    const needles = drawing.shapes.flatMap((shape) => (shape.kind === 'bar' && shape.look === 'needle' ? [shape.x] : [])) // prettier-ignore
    expect(needles).toHaveLength(2)
    expect(needles[0]).toBeCloseTo(Number(needles[1]), 6)
    // Ten minutes over 1000 - 176 - 12 units; the needle stands two minutes in.
    expect(needles[0]).toBeCloseTo(176 + (812 * 2) / 10, 6)
  })

  it('keep one scale: the band of the straight draw is 43 s long and begins 12 s before the needle', () => {
    const [band] = drawing.shapes.flatMap((shape) => (shape.kind === 'bar' && shape.look === 'band' ? [shape] : [])) // prettier-ignore
    expect(band?.width).toBeCloseTo((812 * 43) / 600, 6)
    expect(band?.x).toBeCloseTo(176 + (812 * (120 - 12)) / 600, 6)
  })

  it('name no patient, neither in shapes nor in words nor in the file', () => {
    const svg = stripSvg(drawing, ['Draws of a day'])
    for (const word of ['Alex', 'Invented', 'MRN', 'ORD-77']) expect(svg).not.toContain(word)
    expect(svg).toContain('D7-20261125-0001')
  })

  it('show mixing as waves and cues as rings', () => {
    const cued = stripAt('D7-20261125-0003', 1, [
      [130, { type: 'cueGiven', clock: 'band', cue: 'first', late_ms: 0 }, { source: 'clock' }],
    ])
    const shapes = layDay([cued], dayPicture, 1000).shapes
    const looks = shapes.map(({ look }) => look)
    expect(looks.filter((look) => look === 'mixed')).toHaveLength(3)
    expect(looks.filter((look) => look === 'cue')).toHaveLength(1)
  })

  it('leave out what has no needle and say which', () => {
    const refused = rulerStrip(
      sampleLog({ without: ({ type }) => type === 'needleIn' || type === 'needleOut' }),
    )
    const { about, shapes } = layDay([early, refused], dayPicture, 1000)
    expect(about).toContain('Without a needle: D7-20261125-0003.')
    expect(shapes.filter(({ look }) => look === 'needle')).toHaveLength(1)
  })

  it('of no draw is nothing but the scale', () => {
    const { shapes } = layDay([], dayPicture, 1000)
    expect(shapes.every(({ kind }) => kind === 'line' || kind === 'text')).toBe(true)
  })

  it('stay on the picture where a draw took an hour', () => {
    const slow = stripAt('D7-20261125-0004', 3, [
      [4000, { type: 'exceptionRaised', kind: 'faint' }],
    ])
    for (const shape of layDay([slow], dayPicture, 1000).shapes)
      if (shape.kind === 'bar') expect(shape.x + shape.width).toBeLessThanOrEqual(1000)
  })
})
