import { describe, expect, it } from 'vitest'
import { bloodTaken } from '../../../src/core/protocol/bloodTaken.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

/** An infant of 7 kg: 1 % of 75 mL a kg is 5.25 mL; planned are 5 mL. */
const infant = {
  ...samplePlan([
    sampleTube('t1', 'activatorGel', { nominal_mL: 4, least_mL: 1 }),
    sampleTube('t2', 'edtaK2', { nominal_mL: 1, least_mL: 0.5 }),
  ]),
  blood: { draw_mL: 5, earlier_mL: 0, limit_mL: 5.25, source: '1 % of the body’s blood' },
}
const write = (draw: DrawDriver): string =>
  writeNote({ ...sampleLog(), entries: draw.log() }, noteTemplate).text

function firstDropped(): DrawDriver {
  const draw = drawDriver({ plan: infant })
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'droppedTube')
  return draw
}
const open = (draw: DrawDriver) => draw.dispatch({ type: 'tubeOn' }, 'voice', undefined, false)

describe('blood in a tube that is lost', () => {
  it('counts, and the redraw that would pass the limit is asked about', () => {
    const draw = firstDropped()
    expect(bloodTaken(draw.state())).toEqual({ least_mL: 4, most_mL: 4 })
    expect(open(draw)).toEqual({ kind: 'ask', ask: 'overLimit' })
  })

  it('is drawn again without a question once a provider is named, and the note says who and why', () => {
    const draw = firstDropped()
    draw.tries({ type: 'approveBlood', by: 'Dr. Pat Placeholder', why: 'sepsis, result needed' })
    expect(open(draw).kind).toBe('record')
    expect(draw.flags()).toEqual([])
    expect(write(draw)).toContain('Dr. Pat Placeholder: sepsis, result needed')
  })

  it('drawn again with yes alone is recorded and flagged', () => {
    const draw = firstDropped()
    draw.does('tubeOn', 'tubeFull', 'tubeMixed', 'tubeOn', 'tubeFull')
    expect(draw.flags()).toEqual(['overBloodLimit', 'overBloodLimit'])
    expect(bloodTaken(draw.state()).most_mL).toBe(9)
    expect(write(draw)).toMatch(/Drawn: .*9 mL/)
  })

  it('a decision needs a name and a reason', () => {
    const draw = firstDropped()
    expect(draw.tries({ type: 'approveBlood', by: ' ', why: 'x' }).kind).toBe('impossible')
    expect(draw.tries({ type: 'approveBlood', by: 'Dr. Pat Placeholder', why: '' }).kind).toBe(
      'impossible',
    )
  })

  it('a whole one that fell is no loss: it is mixed and noted', () => {
    const draw = drawDriver({ plan: infant })
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeIntact', 'tubeMixed')
    expect(open(draw).kind).toBe('record')
    expect(bloodTaken(draw.state()).least_mL).toBe(4)
    expect(write(draw)).toContain('tube fell, whole')
  })

  it('what nobody said counts in full against the limit and not at all in "at least"; no vacuum, no blood', () => {
    const short = drawDriver({ plan: infant })
    toNeedleIn(short)
    short.does('flashSeen', 'tubeOn', 'bandOff', 'tubeShort')
    expect(bloodTaken(short.state())).toEqual({ least_mL: 0, most_mL: 4 })
    const none = drawDriver({ plan: infant })
    toNeedleIn(none)
    none.does('flashSeen', 'tubeOn', 'noVacuum')
    expect(bloodTaken(none.state())).toEqual({ least_mL: 0, most_mL: 0 })
    expect(open(none).kind).toBe('record')
    const expired = drawDriver({ plan: infant })
    toNeedleIn(expired)
    expired.does('flashSeen', 'tubeOn', 'expiredTube')
    expect(bloodTaken(expired.state())).toEqual({ least_mL: 0, most_mL: 4 })
  })

  it('without a limit nothing is asked', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'droppedTube')
    expect(open(draw).kind).toBe('record')
  })
})
