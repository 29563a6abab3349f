import { describe, expect, it } from 'vitest'
import * as drawFacts from '../../../src/core/protocol/facts.ts'
import { drawDriver, TO_HANDS, toNeedleIn, toTubesDone } from '../../support/drawDriver.ts'

describe('taking back', () => {
  it('undoes all that one confirmation recorded, and leaves it in the log', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('pressureOn')
    const length = draw.log().length
    draw.does('goBack')
    expect(drawFacts.needleIsIn(draw.state())).toBe(true)
    expect(draw.state().puncture.pressureOn).toBeUndefined()
    expect(draw.log().length).toBe(length + 2)
  })

  it('undoes the needle out that was only the holder', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff')
    const before = draw.state()
    draw.does('needleOut')
    expect(draw.flags()).toContain('needleOutTubeOn')
    draw.does('goBack')
    const { kept, last, ...now } = draw.state()
    const { kept: keptBefore, last: _last, ...then } = before
    expect(now).toEqual(then)
    expect(kept).toEqual(keptBefore)
    expect(last.event.type).toBe('entryUndone')
  })

  it('brings back an exception that the command had ended', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'interrupted', 'resumeDraw', 'goBack')
    expect(drawFacts.openKinds(draw.state())).toEqual(['interrupted'])
  })

  it('never takes back what nobody said: cues, gaps, clocks', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent')
    draw.setClock(60_000)
    draw.beAway('hidden', 20_000)
    draw.does('goBack')
    expect(draw.state().consent).toBeUndefined()
    expect(draw.state().flags.map(({ flag }) => flag)).toEqual(['clockUncertain'])
  })

  it('goes back step by step to the opening, and no further', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS)
    for (let i = 0; i < TO_HANDS.length; i++) draw.does('goBack')
    expect(draw.step()).toBe('identity')
    expect(draw.tries('goBack')).toEqual({ kind: 'impossible', why: 'nothingToUndo' })
  })
})
