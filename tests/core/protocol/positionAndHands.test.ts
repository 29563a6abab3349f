import { describe, expect, it } from 'vitest'
import { drawDriver, toBandage, TO_HANDS } from '../../support/drawDriver.ts'

describe('the position of the patient', () => {
  it.each([
    ['seated', 'seated'],
    ['lyingDown', 'lying'],
  ] as const)('can be said while the arm is chosen: %s', (key, position) => {
    const draw = drawDriver()
    draw.does(...TO_HANDS)
    expect(draw.open().step).toContain(key)
    draw.does(key)
    expect(draw.last()).toEqual([{ type: 'positionTaken', position }])
    expect(draw.tries(key)).toEqual({ kind: 'impossible', why: 'alreadyDone' })
    expect(draw.step()).toBe('find')
  })

  it('is charted as not recorded when nobody said it', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'chooseArm:left')
    expect(draw.state().position).toBeUndefined()
  })
})

describe('after the patient', () => {
  it('gloves off and clean hands are a recorded fact', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.does('labelMatches', 'labelMatches', 'labelsDone')
    expect(draw.open().step).toContain('glovesOff')
    draw.does('aftercareTold', 'glovesOff')
    expect(draw.last()).toEqual([{ type: 'handsCleaned' }])
    draw.does('specimensRacked')
    expect(draw.state().closed?.outcome).toBe('complete')
  })

  it('are not told of before the needle is out', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'chooseArm:left', 'needleIn')
    expect(draw.tries('glovesOff')).toEqual({ kind: 'impossible', why: 'notSafeYet' })
  })
})
