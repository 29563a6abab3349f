import { describe, expect, it } from 'vitest'
import { drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'

function toHands(): DrawDriver {
  const draw = drawDriver()
  draw.does(...TO_HANDS)
  return draw
}

describe('finding the vein', () => {
  // "Best to release after assessing the vein ... reapply just before": a laboratory education page.
  it('puts the band on, chooses arm and vein, takes it off again, and is not flagged when short', () => {
    const draw = toHands()
    expect(draw.step()).toBe('find')
    expect(draw.open().main).toBe('bandOn')
    draw.does('bandOn')
    expect(draw.step()).toBe('site')
    draw.does('chooseArm:left', 'chooseVein:medianCubital')
    expect(draw.step()).toBe('found')
    expect(draw.open().main).toBe('bandOff')
    draw.does('bandOff', 'skinClean')
    draw.advance(30_000)
    draw.does('skinDry')
    expect(draw.step()).toBe('band')
    draw.does('bandOn', 'needleIn')
    expect(draw.flags()).toEqual([])
  })

  // "If more than one minute, re-apply after two": CLSI GP41 as summarized in training texts.
  it('asks for a rest once the first stretch passed the minute', () => {
    const draw = toHands()
    draw.does('bandOn')
    draw.advance(61_000)
    draw.does('chooseArm:left', 'chooseVein:hand', 'bandOff', 'skinClean')
    draw.advance(30_000)
    draw.does('skinDry', 'bandOn')
    expect(draw.flags()).toEqual(['bandOverLimit', 'bandBeforeRest'])
  })

  it('may feel both arms: the band off, and on the other', () => {
    const draw = toHands()
    draw.does('bandOn', 'chooseArm:left', 'bandOff', 'chooseArm:right', 'bandOn')
    draw.does('chooseVein:cephalic')
    expect(draw.step()).toBe('found')
    expect(draw.state().bands.map(({ arm }) => arm)).toEqual([undefined, 'right'])
    expect(draw.flags()).toEqual([])
  })

  it('is passed by naming the arm', () => {
    const draw = toHands()
    draw.does('chooseArm:left', 'chooseVein:medianCubital')
    expect(draw.step()).toBe('cleanse')
  })

  it('lets the band stay on for who cleans at once', () => {
    const draw = toHands()
    draw.does('bandOn', 'chooseArm:left', 'chooseVein:medianCubital', 'skinClean')
    expect(draw.step()).toBe('dry')
    draw.advance(30_000)
    draw.does('skinDry')
    expect(draw.step()).toBe('needle')
  })

  it('comes again with a further needle', () => {
    const draw = toHands()
    draw.does('chooseArm:left', 'chooseVein:medianCubital', 'skinClean', 'needleIn', 'pressureOn')
    draw.does('shieldClicked', 'sharpsDone')
    draw.advance(300_000)
    draw.does('bleedingStopped', 'bandageOn', 'tryAgain')
    expect(draw.step()).toBe('find')
  })
})
