import { describe, expect, it } from 'vitest'
import { armViews } from '../../../src/app/view/armView.ts'
import {
  drawDriver,
  TO_CLEAN,
  TO_HANDS,
  toNeedleIn,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'
import { viewTexts } from '../../support/viewTexts.ts'

const armsOf = (draw: DrawDriver) => armViews(draw.state(), viewTexts)
const closing = (restrictions: { left?: 'nodeRemoval'; right?: 'fistula' }) =>
  drawDriver({ preparation: { ...sampleOpening().preparation, restrictions } })

describe('armViews', () => {
  it('has both arms while one is asked for, the chosen one while a vein is, and none else', () => {
    const draw = drawDriver()
    expect(armsOf(draw)).toBeUndefined()
    draw.does(...TO_HANDS)
    expect(draw.step()).toBe('find')
    expect(armsOf(draw)).toEqual([
      { arm: 'left', name: 'Left arm' },
      { arm: 'right', name: 'Right arm' },
    ])
    draw.does('chooseArm:right')
    expect(draw.step()).toBe('vein')
    expect(armsOf(draw)).toEqual([{ arm: 'right', name: 'Right arm' }])
    draw.does('chooseVein:cephalic')
    expect(armsOf(draw)).toBeUndefined()
  })

  it('says in words why an arm is closed that was known to be', () => {
    const draw = closing({ left: 'nodeRemoval', right: 'fistula' })
    draw.does(...TO_HANDS)
    expect(armsOf(draw)?.map(({ closed }) => closed)).toEqual([
      'Closed: lymph nodes removed',
      'Closed: fistula or graft',
    ])
  })

  it('says so of a drip that was seen at the chair', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'chooseArm:left', 'armFinding:infusion')
    const left = armsOf(draw)?.find(({ arm }) => arm === 'left')
    expect(left?.closed).toBe('Closed: infusion')
  })

  it.each([
    ['brightBlood', 'Closed: bright or pulsing blood today'],
    ['swelling', 'Closed: swelling today'],
    ['sharpPain', 'Closed: sharp pain today'],
  ] as const)('says so of an arm closed by %s in this draw', (kind, words) => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does(kind, 'bandOff', 'pressureOn', 'shieldClicked', 'sharpsDone')
    draw.advance(600_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn', 'exceptionHandled', 'tryAgain')
    expect(['find', 'site']).toContain(draw.step())
    expect(armsOf(draw)).toEqual([
      { arm: 'left', name: 'Left arm', closed: words },
      { arm: 'right', name: 'Right arm' },
    ])
  })

  it('keeps the reason in sight where somebody decided to use the arm', () => {
    const draw = closing({ left: 'nodeRemoval', right: 'fistula' })
    draw.does(...TO_HANDS)
    draw.tries(
      {
        type: 'nameDecision',
        decision: 'proceed',
        by: 'Dr. Pat Placeholder',
        about: 'restrictedArm',
        why: 'no other access',
      },
      'touch',
    )
    draw.does('chooseArm:left')
    expect(armsOf(draw)?.[0]?.closed).toBe('Closed, used by decision: lymph nodes removed')
  })

  it('draws hands or feet where the side of a finger or heel is chosen, and then no more', () => {
    for (const skin of ['capillaryFinger', 'capillaryHeel'] as const) {
      const draw = drawDriver({ collecting: skin })
      draw.does(...TO_HANDS)
      expect(armsOf(draw)).toEqual([
        { arm: 'left', name: 'Left side', skin },
        { arm: 'right', name: 'Right side', skin },
      ])
      draw.does('chooseSide:left')
      expect(armsOf(draw)).toBeUndefined()
    }
  })

  it('draws no arm once the skin is clean', () => {
    const draw = drawDriver()
    draw.does(...TO_CLEAN)
    expect(armsOf(draw)).toBeUndefined()
  })
})
