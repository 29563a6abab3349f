import { describe, expect, it } from 'vitest'
import { effectsOf } from '../../../src/app/draw/effects.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { readCue } from '../../../src/core/protocol/cueId.ts'
import { toSpin } from '../../../src/core/protocol/steps.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { sampleLog } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

/**
 * Ammonia: "no more than 15 minutes from sample collection to the start of centrifugation", on ice; lactate 30 min
 * (a children's hospital laboratory's test pages).
 */
const plan = samplePlan([
  sampleTube('t1', 'edtaK2', { name: 'Ammonia', handling: ['ice'], timeLimit_min: 15 }),
  sampleTube('t2', 'fluorideOxalate', { name: 'Lactate', handling: ['ice'], timeLimit_min: 30 }),
  sampleTube('t3', 'heparinLithium', { name: 'Chemistry', timeLimit_min: 480 }),
])

/** All three drawn, the needle out and in the box; nothing is on ice. */
function drawn(): DrawDriver {
  const draw = drawDriver({ plan })
  toNeedleIn(draw)
  draw.does('flashSeen')
  for (let i = 0; i < 3; i++) {
    draw.does('tubeOn')
    if (i === 0) draw.does('bandOff')
    draw.does('tubeFull', 'tubeMixed')
  }
  draw.does('lastTube', 'pressureOn', 'shieldClicked', 'sharpsDone')
  return draw
}
const limits = (draw: DrawDriver): readonly (string | undefined)[] =>
  clocksOf(draw.state()).flatMap(({ kind, ordinal }) => (kind === 'timeLimit' ? [ordinal] : []))
const called = (draw: DrawDriver): readonly string[] =>
  draw.log().flatMap(({ event }) => {
    const ref = event.type === 'cueGiven' ? readCue(event) : undefined
    return ref?.kind === 'timeLimit' ? [`${ref.ordinal} ${ref.cue}`] : []
  })

describe('a tube for ice', () => {
  it('is spoken of as it comes off, after the turning over', () => {
    const draw = drawDriver({ plan })
    toNeedleIn(draw)
    draw.does('flashSeen', 'tubeOn', 'bandOff')
    const before = draw.state()
    draw.does('tubeFull')
    const entries = draw.log().filter(({ seq }) => seq > before.last.seq)
    const change = { before, after: draw.state(), entries, foreign: 0 }
    const { prompts: spoken } = effectsOf(change, prompts)
    expect(spoken).toEqual(['mix.8', 'handle.ice'])
  })

  it('comes before the pressure is over, each tube by its own word, and can be said at once', () => {
    const draw = drawn()
    expect(draw.step()).toBe('handling')
    draw.does('onIce')
    expect(draw.last()).toEqual([{ type: 'tubeHandled', tubeId: 't1', how: 'ice' }])
    expect(draw.step()).toBe('handling')
    draw.does('onIce')
    expect(draw.step()).toBe('bleeding')
    expect(draw.tries('onIce')).toEqual({ kind: 'impossible', why: 'nothingToHandle' })
    const early = drawDriver({ plan })
    toNeedleIn(early)
    early.does('flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'onIce')
    expect(early.step()).toBe('tube')
  })

  it('stands in the note with its time, or as not recorded', () => {
    const draw = drawn()
    draw.does('onIce')
    const { text } = writeNote({ ...sampleLog(), entries: draw.log() }, noteTemplate)
    expect(text).toMatch(/Handling done: on ice \d\d:\d\d:\d\d/)
    expect(text).toContain('Handling done: on ice not recorded')
  })

  it('that broke and is drawn again must be iced again', () => {
    const draw = drawn()
    draw.does('onIce', 'onIce')
    draw.tries({ type: 'raise', kind: 'droppedTube', tubeId: 't1' })
    expect(draw.state().tubes.find(({ id }) => id === 't1')?.handled).toBeUndefined()
  })
})

describe('a time limit', () => {
  it('runs for each tube from its collection, calls before its end and at it', () => {
    const draw = drawn()
    expect(limits(draw)).toEqual(['t1', 't2'])
    draw.advance(31 * 60_000)
    expect(called(draw)).toEqual(['t1 near', 't1 up', 't2 near', 't2 up'])
  })

  it('near is five minutes before the end', () => {
    const draw = drawn()
    const off_ms = draw.state().tubes[0]?.off?.at_ms ?? 0
    draw.advance(off_ms + 10 * 60_000 - draw.now().wall_ms - 1000)
    expect(called(draw)).toEqual([])
    draw.advance(1000)
    expect(called(draw)).toEqual(['t1 near'])
  })

  it('goes on after the close until the tube is spun or the courier has it; then that of hours is shown', () => {
    const draw = drawn()
    draw.does('onIce', 'onIce')
    draw.advance(300_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn', 'labelMatches', 'labelMatches', 'labelMatches', 'labelsDone')
    draw.does('aftercareTold', 'specimensRacked')
    expect(draw.state().closed).toBeDefined()
    expect(limits(draw)).toEqual(['t1', 't2'])
    draw.does('spinStarted')
    expect(limits(draw)).toEqual(['t1'])
    draw.does('courierTook')
    expect(limits(draw)).toEqual([])
  })
})

describe('the spin', () => {
  it('is due for plasma as well (laboratory handbook pages: separated within 2 h), not for blood examined whole', () => {
    expect(toSpin(drawn().state())).toEqual(['t2', 't3'])
  })

  it('plasma need not clot: nobody waits, and the two hours run', () => {
    const kinds = clocksOf(drawn().state()).map(({ kind }) => kind)
    expect(kinds).toContain('spinBy')
    expect(kinds).not.toContain('clot')
  })
})

describe('labels', () => {
  it('may be done while the patient presses', () => {
    const draw = drawn()
    draw.does('onIce', 'onIce')
    expect(draw.step()).toBe('bleeding')
    expect(draw.open().step).toEqual(expect.arrayContaining(['labelMatches', 'labelWrong']))
    draw.does('labelMatches', 'labelMatches', 'labelMatches', 'labelsDone')
    expect(draw.flags()).toEqual([])
    draw.advance(300_000)
    draw.does('bleedingStopped')
    draw.advance(10_000)
    draw.does('bandageOn')
    expect(draw.step()).toBe('aftercare')
  })
})
