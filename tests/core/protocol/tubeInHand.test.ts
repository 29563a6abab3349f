import { describe, expect, it } from 'vitest'
import { carriedOut, questionOf } from '../../../src/core/protocol/dialog.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'

/** The first tube on the holder. */
function toFirstOn(): DrawDriver {
  const draw = drawDriver()
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff')
  return draw
}

const lost = (draw: DrawDriver): readonly string[] =>
  draw.last().flatMap((event) => (event.type === 'tubeSwapped' ? [event.tubeId] : []))

describe.each(['wrongTube', 'expiredTube'] as const)('%s', (key) => {
  it('is the tube on the holder', () => {
    const draw = toFirstOn()
    draw.does(key)
    expect(lost(draw)).toEqual(['t1'])
  })

  it('is the tube that just came off and waits to be mixed, not the next', () => {
    const draw = toFirstOn()
    draw.does('tubeFull', key)
    expect(lost(draw)).toEqual(['t1'])
    expect(draw.state().lost).toHaveLength(1)
  })

  it('is asked about once that tube is mixed: it may be the next one as well', () => {
    const draw = toFirstOn()
    draw.does('tubeFull', 'tubeMixed')
    const given = { command: { type: key }, source: 'voice' } as const
    const decision = draw.dispatch(given.command, 'voice')
    const question = questionOf(decision, given)
    expect(question?.ask).toBe('drawnTube')
    const no = carriedOut(question, { command: { type: 'confirmNo' }, source: 'voice' })
    expect(no?.command).toEqual({ type: 'raise', kind: key, tubeId: 't2' })
    const yes = carriedOut(question, { command: { type: 'confirmYes' }, source: 'voice' })
    expect(yes?.command).toEqual(given.command)
    const back = carriedOut(question, { command: { type: 'goBack' }, source: 'voice' })
    expect(back).toBeUndefined()
    draw.tries(key)
    expect(lost(draw)).toEqual(['t1'])
  })

  it('is the next, where none was drawn', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', key)
    expect(lost(draw)).toEqual(['t1'])
    expect(draw.state().lost).toEqual([])
  })
})

describe('a tube into which no blood came', () => {
  it('is empty, needs no label, and is still wanted', () => {
    const draw = toFirstOn()
    draw.does('tubeEmpty')
    expect(draw.last()).toEqual([{ type: 'tubeOff', tubeId: 't1', fill: 'empty', estimate_mL: 0 }])
    expect(draw.step()).toBe('tube')
    draw.does('tubeOn')
    expect(draw.state().tubeOn).toBe('t1')
  })

  it('can be said wherever a tube is on', () => {
    const draw = toFirstOn()
    expect(draw.open().step).toContain('tubeEmpty')
    draw.does('swelling')
    expect(draw.step()).toBe('takeOff')
    expect(draw.open().step).toContain('tubeEmpty')
  })
})
