import { describe, expect, it } from 'vitest'
import { offPromptKey } from '../../../src/app/view/promptKeys.ts'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../../src/core/protocol/commands.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { commandOf } from '../../../src/core/protocol/openCommands.ts'
import { lancetDepth } from '../../../src/core/protocol/lancetDepth.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { stepOf } from '../../../src/core/protocol/steps.ts'
import { drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening, secondCollector } from '../../support/sampleLog.ts'

const { patient } = sampleOpening()
const INFANT = { ...patient, birthDate: '2025-11-01', weight_kg: 3.2 }
const heel = (change = {}): DrawDriver =>
  drawDriver({ collecting: 'capillaryHeel', patient: INFANT, ...change })

function lanced(draw: DrawDriver): void {
  draw.does('chooseSide:left', 'siteWarm', 'skinClean')
  draw.advance(30_000)
  draw.does('skinDry', 'lanced')
}

function failed(draw: DrawDriver): void {
  lanced(draw)
  draw.does('pressureOn', 'sharpsDone')
  draw.advance(60_000)
  draw.does('bleedingStopped')
}

describe('a draw from a heel', () => {
  it('goes its own way from the hands to the labels, without band, vein, needle or bandage', () => {
    const draw = heel()
    const seen: string[] = []
    for (const key of [...TO_HANDS, 'chooseSide:left', 'siteWarm', 'skinClean', 'skinDry', 'lanced', 'dropWiped', 'tubeOn', 'tubeFull', 'tubeMixed', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'bleedingStopped'] as const) {
      seen.push(draw.step())
      draw.does(key)
    } // prettier-ignore
    expect(seen.slice(5)).toEqual(['side', 'warm', 'cleanse', 'dry', 'lance', 'wipe', 'tube', 'drops', 'mix', 'tube', 'drops', 'mix', 'press', 'lancetAway', 'bleeding']) // prettier-ignore
    expect(draw.step()).toBe('labels')
  })

  it('is on the same step, with the same clocks, after a reload at every command', () => {
    const draw = heel()
    const steps: (readonly [entries: number, step: string, clocks: number])[] = []
    const way = [...TO_HANDS, 'chooseSide:left', 'warmOn', 'siteWarm', 'skinClean', 'skinDry', 'lanced', 'dropWiped', 'tubeOn', 'tubeFull', 'tubeMixed', 'pressureOn', 'sharpsDone', 'bleedingStopped'] as const // prettier-ignore
    for (const key of way) {
      draw.does(key)
      steps.push([draw.log().length, draw.step(), clocksOf(draw.state()).length])
    }
    expect(new Set(steps.map(([, step]) => step)).size).toBeGreaterThan(10)
    for (const [n, step, clocks] of steps) {
      const again = replay(draw.log().slice(0, n))
      expect([stepOf(again).id, clocksOf(again).length]).toEqual([step, clocks])
    }
  })

  const keys = [...PLAIN_COMMANDS, ...CHOICE_KEYS]
  const OF_VEIN = keys.filter((key) => /^(band(On|Off)$|needle(In|Out)$|flash|noFlash|vein|chooseVein|chooseArm|chooseSet|sameSet|shield|fist|lastTube|noVacuum|slowFlow|flow|brightBlood)/.test(key)) // prettier-ignore
  const OF_SKIN = ['chooseSide:left', 'chooseSide:right', 'warmOn', 'siteWarm', 'lanced', 'dropWiped', 'squeezed', 'slowDrops'] as const // prettier-ignore

  it.each(OF_VEIN)('cannot be about %s, at no step', (key) => {
    const draw = heel()
    const why = { kind: 'impossible', why: 'notFromVein' }
    expect(draw.tries(key)).toMatchObject(why)
    draw.does(...TO_HANDS)
    lanced(draw)
    expect(draw.tries(key)).toMatchObject(why)
    const { step, always, happened } = draw.open()
    expect([...step, ...always, ...happened]).not.toContain(key)
  })

  it.each(OF_SKIN)('a draw from a vein cannot be about %s', (key) => {
    const draw = drawDriver()
    expect(draw.tries(key)).toMatchObject({ kind: 'impossible', why: 'fromVein' })
  })

  it('warms for three to five minutes, and the clock ends when the place is warm', () => {
    const draw = heel()
    draw.does(...TO_HANDS, 'chooseSide:right', 'warmOn')
    const [clock] = clocksOf(draw.state())
    expect(clock).toMatchObject({ kind: 'warming', length_ms: 300_000 })
    expect(clock?.cues.map(({ after_ms }) => after_ms)).toEqual([180_000, 300_000])
    draw.does('siteWarm')
    expect(clocksOf(draw.state())).toEqual([])
  })

  it('a second try is at a new place; a third is for the provider, also in other hands', () => {
    const draw = heel()
    draw.does(...TO_HANDS)
    failed(draw)
    expect(draw.step()).toBe('again')
    draw.does('tryAgain')
    expect(draw.step()).toBe('side')
    failed(draw)
    expect(draw.step()).toBe('provider')
    expect(draw.tries('tryAgain')).toMatchObject({ kind: 'impossible', why: 'twoTries' })
    draw.tries({ type: 'handOver', to: secondCollector })
    expect(draw.tries('tryAgain')).toMatchObject({ kind: 'impossible' })
    draw.tries({
      type: 'nameDecision',
      decision: 'proceed',
      by: 'Dr. P',
      about: 'redraw',
      why: 'x',
    })
    draw.does('tryAgain')
    expect(draw.flags()).not.toContain('thirdAttempt')
  })

  // A used place is avoided for fear of infection (labce.com, site puncture; state newborn screening pages, excerpts).
  it('a second lancet is held against the first: the other side, or said to be another place', () => {
    const other = heel()
    other.does(...TO_HANDS)
    failed(other)
    other.does('tryAgain', 'chooseSide:right', 'siteWarm', 'skinClean', 'skinDry', 'lanced')
    expect(other.flags()).not.toContain('samePlace')

    const same = heel()
    same.does(...TO_HANDS)
    failed(same)
    same.does('tryAgain')
    const asked = same.dispatch(commandOf('chooseSide:left'), 'voice', undefined, false)
    expect(asked).toMatchObject({ kind: 'ask', ask: 'samePlace' })
    expect(same.state().puncture.arm).toBeUndefined()
    same.does('chooseSide:left')
    expect(same.state().puncture).toMatchObject({ arm: 'left', elsewhere: true })
    same.does('skinClean', 'skinDry', 'lanced')
    expect(same.flags()).not.toContain('samePlace')
  })

  it('a second lancet whose place nobody told is recorded and flagged', () => {
    const draw = heel()
    draw.does(...TO_HANDS)
    failed(draw)
    draw.does('tryAgain', 'lanced')
    expect(draw.flags()).toContain('samePlace')
    const first = heel()
    first.does(...TO_HANDS, 'lanced')
    expect(first.flags()).not.toContain('samePlace')
  })

  it('a site’s own minutes of warming run its clock, and an older record keeps those of its day', () => {
    const { policy } = sampleOpening()
    const own = { value: 7, source: 'site rule', backing: 'site' } as const
    const draw = heel({ policy: { ...policy, limits: { ...policy.limits, warmMost_min: own } } })
    draw.does(...TO_HANDS, 'chooseSide:right', 'warmOn')
    expect(clocksOf(draw.state())[0]).toMatchObject({ kind: 'warming', length_ms: 420_000 })
    const { warmLeast_min: _a, warmMost_min: _b, ...before } = policy.limits
    const old = heel({ policy: { ...policy, limits: before as typeof policy.limits } })
    old.does(...TO_HANDS, 'chooseSide:right', 'warmOn')
    expect(clocksOf(old.state())[0]?.cues.map(({ after_ms }) => after_ms)).toEqual([
      180_000, 300_000,
    ])
  })

  it('a lancet that is used a third time all the same is recorded and flagged', () => {
    const draw = heel()
    draw.does(...TO_HANDS)
    failed(draw)
    draw.does('tryAgain')
    failed(draw)
    draw.does('lanced')
    expect(draw.flags()).toContain('thirdAttempt')
  })

  it('a bandage under two years is flagged, from two on it is asked for', () => {
    const young = heel()
    young.does(...TO_HANDS)
    failed(young)
    young.does('bandageOn')
    expect(young.flags()).toContain('bandageTooYoung')
    const child = drawDriver({ collecting: 'capillaryFinger', patient: { ...INFANT, birthDate: '2020-01-01' } }) // prettier-ignore
    child.does(...TO_HANDS)
    failed(child)
    expect(child.step()).toBe('bandage')
    child.does('bandageOn')
    expect(child.flags()).toEqual([])
  })

  it('what has to stop is told without a word of band or needle', () => {
    const draw = heel()
    draw.does(...TO_HANDS)
    lanced(draw)
    draw.does('tubeOn', 'stopEverything')
    expect(offPromptKey(draw.state())).toBe('off.tubePress')
    draw.does('tubeShort')
    expect([draw.step(), offPromptKey(draw.state())]).toEqual(['press', 'off.press'])
    draw.does('pressureOn')
    expect(offPromptKey(draw.state())).toBeUndefined()
  })

  it("a restricted arm does not keep anybody from a heel, and does from that hand's finger", () => {
    const preparation = {
      ...sampleOpening().preparation,
      restrictions: { left: 'fistula' } as const,
    }
    const draw = heel({ preparation })
    draw.does(...TO_HANDS, 'chooseSide:left')
    expect(draw.flags()).toEqual([])
    const finger = drawDriver({ preparation, collecting: 'capillaryFinger' })
    finger.does(...TO_HANDS)
    expect(finger.open().step).not.toContain('chooseSide:left')
    finger.does('chooseSide:left')
    expect(finger.flags()).toEqual(['restrictedArm'])
  })

  // WHO guidelines on drawing blood 2010, as quoted: 0.85 mm for the premature, no finger deeper than 2.4 mm.
  it('tells a depth by weight and age', () => {
    const depth = (collecting: 'capillaryHeel' | 'capillaryFinger', more: object) =>
      lancetDepth(heel({ collecting, patient: { ...INFANT, ...more } }).state())
    expect(depth('capillaryHeel', { weight_kg: 1.5 })).toBe('premature')
    expect(depth('capillaryHeel', {})).toBe('heel')
    expect(depth('capillaryFinger', { birthDate: '2020-01-01' })).toBe('child')
    expect(depth('capillaryFinger', { birthDate: '1980-01-01' })).toBe('finger')
  })
})
