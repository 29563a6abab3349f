import { describe, expect, it } from 'vitest'
import { pressureNeeded_s } from '../../../src/core/protocol/facts.ts'
import { USUAL_SETS } from '../../../src/core/order/usualSets.ts'
import { drawDriver, toNeedleIn, toTubesDone, type DrawDriver } from '../../support/drawDriver.ts'

const WINGED = { needleSet: USUAL_SETS.winged23 }

/** Every state from the needle in until the bandage is on, by what was done since. */
const STAGES: readonly (readonly [string, (draw: DrawDriver) => void])[] = [
  ['the needle in', (d) => toNeedleIn(d)],
  ['a tube filling, the band on', (d) => { toNeedleIn(d); d.does('flashSeen', 'tubeOn') }],
  ['a tube filling', (d) => { toNeedleIn(d); d.does('flashSeen', 'tubeOn', 'bandOff') }],
  ['a tube to mix', (d) => { toNeedleIn(d); d.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull') }],
  ['the next tube to come', (d) => { toNeedleIn(d); d.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed') }],
  ['all tubes drawn', (d) => toTubesDone(d)],
  ['the needle to come out', (d) => { toTubesDone(d); d.does('lastTube') }],
  ['the needle to come out after swelling', (d) => { toTubesDone(d); d.does('swelling') }],
  ['the needle out', (d) => { toTubesDone(d); d.does('lastTube', 'needleOut') }],
  ['pressure on', (d) => { toTubesDone(d); d.does('lastTube', 'pressureOn') }],
  ['the shield closed', (d) => { toTubesDone(d); d.does('lastTube', 'pressureOn', 'shieldClicked') }],
  ['sharps done', (d) => { toTubesDone(d); d.does('lastTube', 'pressureOn', 'shieldClicked', 'sharpsDone') }],
] // prettier-ignore

describe.each(STAGES)('with %s', (_name, to) => {
  it.each(['brightBlood', 'nausea'] as const)('%s can be said', (key) => {
    const draw = drawDriver()
    to(draw)
    const { main, step } = draw.open()
    expect([main, ...step]).toContain(key)
    draw.does(key)
    expect(draw.state().seen).toContain(key)
  })
})

describe('bright blood told during pressure', () => {
  it('closes the arm and asks for the longer pressure', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn', 'brightBlood')
    expect(draw.state().puncture.closedBy).toBe('brightBlood')
    expect(pressureNeeded_s(draw.state())).toBe(300)
  })
})

describe('a set whose button draws the needle back', () => {
  it('closes the shield and takes the needle out in one, without a flag', () => {
    const draw = drawDriver(WINGED)
    toTubesDone(draw)
    draw.does('lastTube', 'shieldClicked')
    expect(draw.last()).toEqual([{ type: 'needleOut' }, { type: 'shieldClicked' }])
    expect(draw.step()).toBe('pressure')
    draw.does('pressureOn')
    expect(draw.step()).toBe('sharps')
    expect(draw.flags()).toEqual([])
  })

  it('is flagged where the band is still on', () => {
    const draw = drawDriver(WINGED)
    toNeedleIn(draw)
    draw.does('shieldClicked')
    expect(draw.flags()).toEqual(['needleOutBandOn'])
  })

  it('is no straight needle: that is shielded only once it is out', () => {
    const draw = drawDriver({ needleSet: USUAL_SETS.straight21 })
    toTubesDone(draw)
    expect(draw.tries('shieldClicked')).toEqual({ kind: 'impossible', why: 'needleNotOut' })
  })
})
