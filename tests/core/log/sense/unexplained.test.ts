import { expect, it } from 'vitest'
import { unexplained } from '../../../../src/core/log/sense/unexplained.ts'
import { sampleOpening, sha256 } from '../../../support/sampleLog.ts'
import { createSimulatedDraw } from '../../../../src/core/scenario/simulatedDraw.ts'

// Found by tests/property/logRecord.test.ts, about once in 30,000 draws: another command begins with the same entry.
it('knows a tube taken off short in a faint, in the moment in which its slow flow was noticed', () => {
  const opening = sampleOpening()
  const draw = createSimulatedDraw(opening, sha256)
  for (const type of ['needleIn', 'flashSeen', 'tubeOn', 'faint'] as const) {
    draw.dispatch({ type }, 'voice', 'words heard', true)
  }
  draw.advance(23_000)
  draw.dispatch({ type: 'tubeShort' }, 'voice', 'words heard', true)
  const entries = draw.log()
  expect(entries.slice(-4).map(({ event }) => event.type)).toEqual([
    'exceptionRaised',
    'tubeOff',
    'exceptionRaised',
    'exceptionEnded',
  ])
  const log = { format: 'stillhand-log', version: 1, drawId: opening.drawId, entries } as const
  expect(unexplained(log)).toEqual([])
})
