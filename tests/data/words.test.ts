import { describe, expect, it } from 'vitest'
import { withLimits } from '../../src/core/policy/policy.ts'
import words from '../../src/data/en/words.json' with { type: 'json' }
import { drawDriver, toTubesDone } from '../support/drawDriver.ts'
import { samplePolicy } from '../support/samplePlan.ts'
import { viewOf } from '../support/viewTexts.ts'

describe('limits in the words', () => {
  it('are the site’s own on the screen', () => {
    const bandage_min = { value: 20, source: 'site rule', backing: 'site' as const }
    const policy = { ...samplePolicy, limits: { ...samplePolicy.limits, bandage_min } }
    const draw = drawDriver({ policy })
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn', 'shieldClicked', 'sharpsDone')
    draw.advance(300_000)
    draw.does('bleedingStopped')
    const { step } = viewOf(draw)
    expect(step.id).toBe('bandage')
    expect(step.points).toContain('On for at least 20 minutes.')
    expect(step.points).toContain('Watch 10 seconds for swelling first.')
  })

  it('all name a limit there is', () => {
    const points = [...Object.values(words.steps), ...Object.values(words.exceptions)].flatMap(
      (each): readonly string[] => each.points,
    )
    expect(points.join(' ')).toContain('{separate_min}')
    expect(points.filter((point) => /[{}]/.test(withLimits(point, samplePolicy)))).toEqual([])
  })

  it('stand in points alone, the only place where they are filled in', () => {
    const stray = JSON.stringify(words, (key, value: unknown) =>
      key === 'points' || key === 'asks' ? undefined : value,
    ).match(/\{\w+\}/g)
    expect(stray).toBeNull()
    // A question names the tube that it is about, and nothing else is filled in.
    const asked = JSON.stringify(words.asks).match(/\{\w+\}/g) ?? []
    expect([...new Set(asked)]).toEqual(['{tube}'])
  })
})
