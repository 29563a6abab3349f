import { describe, expect, it } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'

const noteOf = (draw: DrawDriver): string => {
  const { drawId } = draw.state().opened
  const log = { format: 'stillhand-log', version: 1, drawId, entries: draw.log() } as const
  return writeNote(log, noteTemplate).text
}

/** One tube drawn, the needle out, the other tube missing. */
function toOneMissing(): DrawDriver {
  const draw = drawDriver()
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'pressureOn')
  draw.does('shieldClicked', 'sharpsDone')
  draw.advance(300_000)
  draw.does('bleedingStopped')
  draw.advance(10_000)
  draw.does('bandageOn')
  return draw
}

describe('a draw that ends with tubes missing', () => {
  it('asks why, and one answer ends it', () => {
    const draw = drawDriver()
    expect(draw.dispatch({ type: 'endDraw' }, 'touch')).toEqual({
      kind: 'ask',
      ask: 'endUnfinished',
    })
    draw.does('endBecause:absent')
    expect(draw.last()).toEqual([{ type: 'drawClosed', outcome: 'notDrawn', reason: 'absent' }])
    expect(noteOf(draw)).toContain('patient not there')
  })

  it('takes a plain yes as: not said', () => {
    const draw = drawDriver()
    draw.does('endDraw')
    expect(draw.last()).toEqual([{ type: 'drawClosed', outcome: 'notDrawn', reason: 'notSaid' }])
    expect(noteOf(draw)).toContain('reason not said')
  })

  it('keeps the reason over the labels, for the tests that have no tube', () => {
    const draw = toOneMissing()
    expect(draw.step()).toBe('again')
    draw.does('endBecause:noVein')
    expect(draw.last()).toEqual([{ type: 'noFurtherPuncture', reason: 'noVein' }])
    draw.does('labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
    expect(draw.state().closed?.outcome).toBe('partial')
    expect(noteOf(draw)).toContain('no vein found')
  })

  it('is not asked where something in the draw is the reason', () => {
    const draw = drawDriver()
    draw.does('stopEverything', 'exceptionHandled')
    expect(draw.dispatch({ type: 'endDraw' }, 'touch')).toEqual({ kind: 'ask', ask: 'endDraw' })
    draw.does('endDraw')
    expect(draw.last()).toEqual([{ type: 'drawClosed', outcome: 'notDrawn' }])
  })

  it('ends nothing while the needle is in', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    expect(draw.tries('endBecause:unwell')).toEqual({ kind: 'impossible', why: 'notSafeYet' })
  })
})

describe('labels', () => {
  it('of what is drawn may be done before a second attempt, and stay done', () => {
    const draw = toOneMissing()
    expect(draw.open().step).toEqual(expect.arrayContaining(['labelMatches', 'labelsDone']))
    draw.does('labelMatches', 'labelsDone', 'tryAgain')
    expect(draw.state().readBack).toEqual({ t1: true })
  })

  it('are not read back by a colleague who has no name yet', () => {
    const draw = toOneMissing()
    draw.does('needlestick', 'colleagueHere')
    expect(draw.tries('labelMatches')).toEqual({ kind: 'impossible', why: 'colleagueUnnamed' })
    expect(draw.tries('labelsDone')).toEqual({ kind: 'impossible', why: 'colleagueUnnamed' })
  })
})
