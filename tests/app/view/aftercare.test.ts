import { describe, expect, it } from 'vitest'
import { nextByTheScreen, drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'
import { viewOf } from '../../support/viewTexts.ts'

const born = (birthDate: string) => ({ ...sampleOpening().patient, birthDate })

function toAftercare(draw: DrawDriver): DrawDriver {
  for (let steps = 0; steps < 60 && draw.step() !== 'aftercare'; steps++) {
    draw.advance(60_000)
    const [asked] = nextByTheScreen(draw.state())
    if (asked) draw.tries(asked)
  }
  expect(draw.step()).toBe('aftercare')
  return draw
}
const said = (draw: DrawDriver): string => viewOf(toAftercare(draw)).step.points[0] ?? ''

// No bandage under two years, it may end in the mouth: training pages of the trade. The rest is common practice.
describe('what is told after the draw', () => {
  it('to a grown person: the bandage and the arm', () => {
    expect(said(drawDriver())).toBe('Bandage on 15 minutes, no heavy lifting today.')
  })

  it.each([
    ['a heel', { collecting: 'capillaryHeel' as const }],
    ['a vein', {}],
  ])(
    'after %s of a child under two: to the parent, and no bandage is asked for',
    (_from, change) => {
      const draw = drawDriver({ ...change, patient: born('2025-11-01') })
      expect(said(draw)).toBe(
        'Tell the parent: no bandage, press again if it bleeds, keep the place clean.',
      )
      expect(draw.state().puncture.bandage).toBeUndefined()
    },
  )

  it('after a finger: nothing of the arm', () => {
    const draw = drawDriver({ collecting: 'capillaryFinger', patient: born('2015-11-01') })
    expect(said(draw)).toBe('Keep the place clean today, and press again if it bleeds.')
  })
})

// Serum clots first, plasma may be spun at once: clotting times of the tubes in the catalog.
it.each([
  ['fluorideOxalate', ['Plasma need not wait.']],
  ['activatorGel', ['Serum clots first: upright, closed, at room temperature.']],
] as const)(
  'before the spin of %s says of these tubes alone whether they clot',
  (additive, lines) => {
    const draw = drawDriver({ plan: samplePlan([sampleTube('t1', additive)]) })
    for (let steps = 0; steps < 60 && draw.step() !== 'spin'; steps++) {
      draw.advance(60_000)
      const [asked] = nextByTheScreen(draw.state())
      if (asked) draw.tries(asked)
    }
    expect(draw.step()).toBe('spin')
    expect(viewOf(draw).step.points.filter((point) => /clots|Plasma/.test(point))).toEqual(lines)
  },
)

it('after going on to a vein the tube is counted in the plan that is in force', () => {
  const draw = drawDriver({ collecting: 'capillaryHeel', patient: born('2025-11-01') })
  draw.does(...TO_HANDS, 'chooseSide:left', 'siteWarm', 'skinClean')
  draw.advance(30_000)
  draw.does('skinDry', 'lanced', 'pressureOn', 'sharpsDone')
  draw.advance(60_000)
  draw.does('bleedingStopped', 'goToVein:notEnough', 'chooseArm:left', 'chooseVein:hand')
  draw.does('chooseSet:winged23', 'skinClean', 'skinDry', 'bandOn', 'needleIn', 'flashSeen')
  expect(draw.step()).toBe('tube')
  expect(viewOf(draw).step.about).toMatch(/^tube 1 of \d/i)
})
