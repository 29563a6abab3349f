import { describe, expect, it } from 'vitest'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'

/** Blood runs into the first tube, the band is still on, and the clock finds that it takes long. */
function lateTube(): DrawDriver {
  const draw = drawDriver()
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn')
  const fill = clocksOf(draw.state()).find(({ kind }) => kind === 'fill')
  if (fill?.ordinal === undefined) throw new Error('no tube fills')
  const { kind, ordinal, from_ms } = fill
  draw.tries({ type: 'giveCue', cue: { kind, ordinal, from_ms, cue: 'late' }, late_ms: 0 }, 'clock')
  return draw
}

// Off as blood flows, unless it falters: training pages of a phlebotomy educator and of a hospital authority.
describe('a tube that takes long by the clock alone', () => {
  it('is noted, and the band is still to come off', () => {
    const draw = lateTube()
    expect(draw.state().exceptions.map(({ kind }) => kind)).toContain('slowFlow')
    expect(draw.step()).toBe('release')
  })

  it('keeps the band on once a person says that blood comes slowly', () => {
    const draw = lateTube()
    draw.does('slowFlow')
    expect(draw.step()).toBe('filling')
  })
})
