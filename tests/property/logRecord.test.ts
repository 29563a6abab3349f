import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { writeBundle } from '../../src/core/fhir/bundle.ts'
import { readBundle } from '../support/readBundle.ts'
import { summaryOf } from '../support/summaryOf.ts'
import { checkLog } from '../../src/core/log/checkLog.ts'
import { impossible } from '../../src/core/log/sense/impossible.ts'
import { unexplained } from '../../src/core/log/sense/unexplained.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { PLAIN_COMMANDS, type Command } from '../../src/core/protocol/commands.ts'
import { mainOf } from '../../src/core/protocol/steps.ts'
import { labelsFor } from '../../src/core/record/labels.ts'
import { writeNote } from '../../src/core/record/note.ts'
import { createSimulatedDraw } from '../../src/core/scenario/simulatedDraw.ts'
import { fhirIssues } from '../support/fhirChecks.ts'
import { noteTemplate } from '../support/noteTemplate.ts'
import { texts } from '../../src/data/en/texts.ts'
import { sampleOpening, secondCollector, sha256 } from '../support/sampleLog.ts'

type Move = 'main' | 'site' | 'handOver' | 'crash' | 'sleep' | Command['type']

/** Mostly what the step asks for, with odd commands, crashes and clocks set in between. */
const move = fc.oneof(
  { weight: 12, arbitrary: fc.constant<Move>('main') },
  { weight: 3, arbitrary: fc.constant<Move>('site') },
  { weight: 3, arbitrary: fc.constantFrom<Move>(...PLAIN_COMMANDS) },
  { weight: 1, arbitrary: fc.constantFrom<Move>('handOver', 'crash', 'sleep') },
)
const moves = fc.array(fc.tuple(move, fc.integer({ min: 0, max: 20_000 })), { maxLength: 60 })

function play(steps: readonly (readonly [Move, number])[]): DrawLog {
  const opening = sampleOpening()
  const draw = createSimulatedDraw(opening, sha256)
  for (const [what, wait_ms] of steps) {
    draw.advance(wait_ms)
    if (what === 'crash' || what === 'sleep') {
      draw.beAway(what, wait_ms)
    } else if (what === 'site') {
      draw.dispatch({ type: 'chooseArm', arm: 'right' }, 'touch')
      draw.dispatch({ type: 'chooseVein', vein: 'cephalic' }, 'touch')
    } else if (what === 'handOver') {
      draw.dispatch({ type: 'handOver', to: secondCollector }, 'touch')
    } else {
      const type = what === 'main' ? mainOf(draw.state()) : what
      if (type) draw.dispatch({ type } as Command, 'voice', 'words heard', true)
    }
  }
  return { format: 'stillhand-log', version: 1, drawId: opening.drawId, entries: draw.log() }
}

describe('the record of any draw the protocol can run', () => {
  it('is a log that its check passes, and gives a note, labels and a sound bundle', () => {
    fc.assert(
      fc.property(moves, (steps) => {
        const log = play(steps)
        expect(checkLog(log, sha256)).toMatchObject({ ok: true })
        expect(impossible(log)).toBeUndefined()
        expect(unexplained(log)).toEqual([])
        const note = writeNote(log, noteTemplate)
        expect(note.text).not.toMatch(/undefined|null|NaN|Infinity|\[object|[{}]/)
        expect(note.warnings.includes(noteTemplate.notClosed)).toBe(
          !log.entries.some(({ event }) => event.type === 'drawClosed'),
        )
        const numbers = labelsFor(log).map(({ specimenNumber }) => specimenNumber)
        expect(new Set(numbers).size).toBe(numbers.length)
        const bundle = writeBundle(log, texts, sha256)
        expect(fhirIssues(JSON.parse(JSON.stringify(bundle)) as never)).toEqual([])
        expect(readBundle(bundle)).toEqual(summaryOf(log))
      }),
      { numRuns: 60 },
    )
  }, 60_000)
})
