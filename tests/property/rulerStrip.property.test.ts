import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DrawLog, LogEntry } from '../../src/core/protocol/entry.ts'
import { keptEntries } from '../../src/core/protocol/keptEntries.ts'
import { PLAIN_COMMANDS, type Command } from '../../src/core/protocol/commands.ts'
import { mainOf } from '../../src/core/protocol/steps.ts'
import { layStrip } from '../../src/core/record/layStrip.ts'
import { isMarked } from '../../src/core/record/markedEvents.ts'
import { rulerStrip } from '../../src/core/record/rulerStrip.ts'
import { stripSvg } from '../../src/core/record/stripSvg.ts'
import { textWidth_em } from '../../src/core/record/textWidth.ts'
import { texts } from '../../src/data/en/texts.ts'
import { createSimulatedDraw } from '../../src/core/scenario/simulatedDraw.ts'
import { sampleOpening, sha256 } from '../support/sampleLog.ts'

type Move = 'main' | 'site' | 'again' | Command['type']
const move = fc.oneof(
  { weight: 12, arbitrary: fc.constant<Move>('main') },
  { weight: 3, arbitrary: fc.constant<Move>('site') },
  { weight: 2, arbitrary: fc.constantFrom<Move>('needleOut', 'tryAgain', 'bandOn', 'goBack') },
  { weight: 3, arbitrary: fc.constantFrom<Move>(...PLAIN_COMMANDS) },
)
const moves = fc.array(fc.tuple(move, fc.integer({ min: 0, max: 90_000 })), { maxLength: 60 })

/** A draw under clocks that run on, so that the times written are the times known. */
function play(steps: readonly (readonly [Move, number])[]): DrawLog {
  const opening = sampleOpening()
  const draw = createSimulatedDraw(opening, sha256)
  for (const [what, wait_ms] of steps) {
    draw.advance(wait_ms)
    if (what === 'site') {
      draw.dispatch({ type: 'chooseArm', arm: 'right' }, 'touch')
      draw.dispatch({ type: 'chooseVein', vein: 'cephalic' }, 'touch')
    } else {
      const type = what === 'main' ? mainOf(draw.state()) : what
      if (type) draw.dispatch({ type } as Command, 'voice', 'words heard', true)
    }
  }
  return { format: 'stillhand-log', version: 1, drawId: opening.drawId, entries: draw.log() }
}

/** A prick of the person who draws is no part of the patient's record. */
const isOfCollector = ({ event }: LogEntry): boolean =>
  event.type === 'colleagueTook' || ('kind' in event && event.kind === 'needlestick')

const words = { strip: texts.pictures.strip, note: texts.note }

describe('the ruler of any draw the protocol can run', () => {
  it('has every marked entry that counts, in order, at the time since the opening that the log has', () => {
    fc.assert(
      fc.property(moves, (steps) => {
        const log = play(steps)
        const kept = new Set(keptEntries(log.entries).kept.map(({ seq }) => seq))
        const opened_ms = log.entries[0]?.at.at_ms ?? 0
        const ofCollector = new Set(log.entries.filter(isOfCollector).map(({ seq }) => seq))
        const expected = log.entries
          .filter(({ seq, event }) => event.type === 'entryUndone' || kept.has(seq))
          .filter(({ seq }) => !ofCollector.has(seq))
          .filter(({ event }) => event.type !== 'entryUndone' || !ofCollector.has(event.seq))
          .filter(({ event }) => isMarked(event))
          .map(({ seq, at, event }) => [seq, at.at_ms - opened_ms, event.type])
        const strip = rulerStrip(log)
        expect(strip.marks.map((mark) => [mark.seq, mark.at_ms, mark.event.type])).toEqual(expected)
        for (const bar of [...strip.bands, ...strip.needles, ...strip.tubes, ...strip.pressures]) {
          expect(bar.to_ms ?? Infinity).toBeGreaterThanOrEqual(bar.from_ms)
          expect(expected).toContainEqual([bar.seq, bar.from_ms, expect.anything()])
        }
        expect(strip.needles).toHaveLength(
          strip.marks.filter(({ event }) => event.type === 'needleIn' || event.type === 'lanced')
            .length,
        )
      }),
      { numRuns: 80 },
    )
  }, 60_000)

  it('draws each mark, within its width, later ones never before earlier ones, and no word on another', () => {
    fc.assert(
      fc.property(moves, fc.integer({ min: 300, max: 1200 }), (steps, width) => {
        const strip = rulerStrip(play(steps))
        const drawing = layStrip(strip, words, { width, hasWords: true })
        const drawn = drawing.shapes.flatMap((shape) => {
          return 'seq' in shape && shape.seq !== undefined ? [shape.seq] : []
        })
        for (const { seq } of strip.marks) expect(drawn).toContain(seq)
        const dots = drawing.shapes.flatMap((shape) => {
          return shape.kind === 'line' && shape.look === 'dot' ? [shape.x1] : []
        })
        expect(dots).toEqual([...dots].sort((a, b) => a - b))
        for (const x of dots) expect(x >= 0 && x <= width).toBe(true)
        const boxes = drawing.shapes.flatMap((shape) =>
          shape.kind === 'text' && shape.look !== 'time'
            ? [{ y: shape.y, from: shape.x, to: shape.x + 15 * textWidth_em(shape.text) }]
            : [],
        )
        for (const [i, a] of boxes.entries()) {
          expect(a.y).toBeLessThan(drawing.height)
          for (const b of boxes.slice(i + 1)) {
            expect(a.y !== b.y || a.to <= b.from || b.to <= a.from).toBe(true)
          }
        }
        expect(stripSvg(drawing, ['x'])).not.toMatch(/NaN|undefined|Infinity|[{}]/)
      }),
      { numRuns: 80 },
    )
  }, 60_000)
})
