import { describe, expect, it } from 'vitest'
import type { NeedleSet } from '../../../src/core/order/order.ts'
import { USUAL_SETS } from '../../../src/core/order/usualSets.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { needleSetOf } from '../../../src/core/protocol/facts.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'

const straight: NeedleSet = { ...USUAL_SETS.straight21, wall: 'regular' }

/** A first attempt without blood, cleared away, and the second one begun. */
function toSecondAttempt(draw: DrawDriver): void {
  toNeedleIn(draw)
  draw.does('bandOff', 'pressureOn', 'shieldClicked', 'sharpsDone')
  draw.advance(120_000)
  draw.does('bleedingStopped')
  draw.advance(10_000)
  draw.does('bandageOn', 'tryAgain')
}

describe('the needle of a puncture', () => {
  it('is asked anew at a further attempt and may be the same kind with one word', () => {
    const draw = drawDriver()
    toSecondAttempt(draw)
    draw.does('chooseArm:right', 'chooseVein:cephalic')
    expect(draw.step()).toBe('set')
    expect(draw.open().main).toBe('sameSet')
    draw.does('sameSet')
    expect(draw.step()).toBe('cleanse')
    expect(needleSetOf(draw.state())).toEqual(draw.state().opened.needleSet)
  })

  it('is not asked at the first attempt, whose needle stands in the order', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands', 'chooseArm:left', 'chooseVein:medianCubital') // prettier-ignore
    expect(draw.step()).toBe('cleanse')
  })

  it('says of one that was named by kind and gauge that its lengths are assumed, and of a packet none', () => {
    const named = (key: 'chooseSet:straight21' | NeedleSet): string => {
      const draw = drawDriver()
      toSecondAttempt(draw)
      draw.does('chooseArm:right', 'chooseVein:cephalic')
      if (typeof key === 'string') draw.does(key)
      else draw.dispatch({ type: 'chooseSet', set: key }, 'touch')
      draw.does('skinClean', 'skinDry', 'bandOn', 'needleIn')
      const log = { format: 'stillhand-log', version: 1, drawId: 'd', entries: draw.log() } as const
      return writeNote(log, texts.note).text
    }
    const assumed = /needle of 25 mm and tubing of 0 mm assumed, not read from the packet/
    expect(named('chooseSet:straight21')).toMatch(assumed)
    expect(named(straight)).not.toMatch(assumed)
    expect(named(straight)).toContain('regular wall, needle 25 mm, tubing 0 mm')
  })

  it('is charted with each puncture', () => {
    const draw = drawDriver()
    toSecondAttempt(draw)
    draw.does('chooseArm:right', 'chooseVein:hand', 'chooseSet:winged23')
    const sets = factsOf({
      format: 'stillhand-log',
      version: 1,
      drawId: draw.state().opened.drawId,
      entries: draw.log(),
    }).punctures.map(({ needleSet }) => needleSet)
    expect(sets).toEqual([draw.state().opened.needleSet, USUAL_SETS.winged23])
  })

  it('cannot be changed while it is in the vein', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    expect(draw.tries('chooseSet:winged23')).toEqual({ kind: 'impossible', why: 'needleIsIn' })
  })
})

describe('the flash', () => {
  it('is a step of a winged set, which shows blood in its tubing', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    expect(draw.step()).toBe('flash')
    expect(clocksOf(draw.state()).map(({ kind }) => kind)).toContain('flash')
  })

  it('is no step of a straight needle: the first tube goes on, then blood is seen', () => {
    const draw = drawDriver({ needleSet: straight })
    toNeedleIn(draw)
    expect(draw.step()).toBe('tube')
    expect(clocksOf(draw.state()).map(({ kind }) => kind)).not.toContain('flash')
    // Some straight needles have a window: what was seen can be said all the same.
    expect(draw.open().step).toContain('flashSeen')
    draw.does('tubeOn', 'bandOff', 'tubeFull')
    expect(draw.step()).toBe('mix')
    expect(draw.flags()).toEqual([])
  })
})
