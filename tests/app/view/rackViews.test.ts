import { describe, expect, it } from 'vitest'
import { shortName } from '../../../src/core/catalogue/shortName.ts'
import { rackViews } from '../../../src/app/view/rackViews.ts'
import { tubeShape } from '../../../src/app/view/tubeShape.ts'
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import { viewTexts } from '../../support/viewTexts.ts'

const rackOf = (draw: DrawDriver) => rackViews(draw.state(), draw.now(), viewTexts)

/** With the needle in and first blood seen; two EDTA tubes that only their tests and handling tell apart. */
function twins(): DrawDriver {
  const plan = samplePlan([
    { ...sampleTube('t1', 'edtaK2'), tests: ['FBC'] },
    {
      ...sampleTube('t2', 'edtaK2'),
      tests: ['NH3', 'A1C', 'ACTH'],
      handling: ['ice', 'noAlcohol'],
    },
  ])
  const draw = drawDriver({ plan })
  toNeedleIn(draw)
  draw.does('flashSeen')
  return draw
}

describe('rackViews', () => {
  it('tells two equal tubes apart by number, tests and handling; the skin is no handling of a tube', () => {
    expect(rackOf(twins())).toMatchObject([
      { number: 1, tests: 'FBC', handling: [] },
      { number: 2, tests: 'NH3, A1C +1', handling: [{ mark: 'ice', words: 'on ice at once' }] },
    ])
  })

  it('lets the level rise from when the tube went on, to when it is expected to be full', () => {
    const draw = twins()
    draw.does('tubeOn')
    expect(rackOf(draw)[0]?.filling).toMatchObject({ elapsed_ms: 0, isHeld: false })
    draw.advance(3000)
    const { fill } = draw.state().plan.tubes[0] ?? {}
    expect(rackOf(draw)[0]).toMatchObject({
      status: 'on',
      filling: { elapsed_ms: 3000, length_ms: (fill?.expected_s ?? 0) * 1000 },
    })
    expect(rackOf(draw)[1]?.filling).toBeUndefined()
  })

  it('holds the level where it stood when somebody said that the flow was lost', () => {
    const draw = twins()
    draw.does('tubeOn')
    draw.advance(2000)
    draw.does('flowLost')
    draw.advance(9000)
    expect(rackOf(draw)[0]?.filling).toMatchObject({ elapsed_ms: 3000, isHeld: true })
  })

  it('has the blood that was said: all of it, so much, or nobody knows', () => {
    const draw = twins()
    draw.does('tubeOn', 'tubeFull', 'tubeMixed', 'tubeOn', 'tubeShort')
    const [full, short] = rackOf(draw)
    expect(full?.blood_mL).toBe(full?.fill_mL)
    expect(full?.filling).toBeUndefined()
    expect(short).not.toHaveProperty('blood_mL')
  })

  it('says that a tube is drawn in the place of a lost one', () => {
    const draw = twins()
    draw.does('tubeOn', 'tubeFull')
    draw.tries({ type: 'raise', kind: 'droppedTube', tubeId: 't1' })
    expect(rackOf(draw)[0]).toMatchObject({ isRedrawn: true, blood_mL: 0 })
  })
})

describe('tubeShape', () => {
  const tube = sampleTube('t1', 'edtaK2')
  it.each([
    [tube, 'tube'],
    [{ ...tube, role: 'culture' as const }, 'bottle'],
    [{ ...tube, fillsBy: 'mark' as const, nominal_mL: 0.5 }, 'micro'],
    [{ ...tube, additive: 'filterPaper' as const }, 'card'],
    [{ ...tube, additive: 'heparinBalanced' as const }, 'syringe'],
  ])('is %#: %s', (each, shape) => {
    expect(tubeShape(each)).toBe(shape)
  })
})

describe('shortName', () => {
  it.each([
    [{ name: 'Sodium', aliases: ['Na'] }, 'Sodium'],
    [{ name: 'Complete blood count', aliases: ['full blood count', 'FBC'] }, 'FBC'],
    [{ name: 'Something long indeed', aliases: ['as long as the other'] }, 'Something long indeed'],
  ])('of %j is %s', (test, short) => {
    expect(shortName(test)).toBe(short)
  })
})
