import { describe, expect, it } from 'vitest'
import type { ClockKind } from '../../../src/core/protocol/clockTable.ts'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import { readCue } from '../../../src/core/protocol/cueId.ts'
import { dueCues, nextCueIn_ms, shown_ms } from '../../../src/core/protocol/dueCues.ts'
import {
  drawDriver,
  toBandage,
  TO_CLEAN,
  toNeedleIn,
  toTubesDone,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import { samplePolicy } from '../../support/samplePlan.ts'
import type { SimulatedDraw } from '../../../src/core/scenario/simulatedDraw.ts'

const shown = (draw: SimulatedDraw, kind: ClockKind): number | undefined => {
  const clock = clocksOf(draw.state()).find((each) => each.kind === kind)
  return clock && shown_ms(draw.state(), clock, draw.now()) / 1000
}
/** Cues given, with the second after `from_ms` of the wall clock. */
const cuesSince = (draw: SimulatedDraw, from_ms: number, kind: ClockKind): readonly string[] =>
  draw.log().flatMap(({ at, event }) => {
    const ref = event.type === 'cueGiven' ? readCue(event) : undefined
    return ref?.kind === kind ? [`${ref.cue} ${(at.at_ms - from_ms) / 1000}`] : []
  })
const banded = (): { draw: DrawDriver; on_ms: number } => {
  const draw = drawDriver()
  draw.does(...TO_CLEAN, 'bandOn')
  return { draw, on_ms: draw.now().wall_ms }
}

describe('the band', () => {
  it('calls at 30, 45 and 55 s (common practice, no source), at 60 s (CLSI GP41 as summarized) and on', () => {
    const { draw, on_ms } = banded()
    draw.advance(72_000)
    expect(cuesSince(draw, on_ms, 'band')).toEqual([
      'first 30',
      'second 45',
      'last 55',
      'up 60',
      'up 65',
      'up 70',
    ])
  })

  it('raises its alarm once, and stops calling when it is off', () => {
    const { draw, on_ms } = banded()
    draw.advance(61_000)
    draw.does('bandOff')
    const given = cuesSince(draw, on_ms, 'band').length
    draw.advance(60_000)
    expect(cuesSince(draw, on_ms, 'band').length).toBe(given)
    expect(draw.log().filter(({ event }) => event.type === 'exceptionRaised').length).toBe(1)
    expect(draw.state().exceptions).toEqual([])
  })

  it('said on anew after it was taken back calls anew', () => {
    const { draw } = banded()
    draw.advance(50_000)
    draw.does('goBack', 'bandOn')
    const on_ms = draw.now().wall_ms
    const before = cuesSince(draw, on_ms, 'band').length
    draw.advance(46_000)
    expect(cuesSince(draw, on_ms, 'band').slice(before)).toEqual(['first 30', 'second 45'])
  })

  it('that was taken back takes its alarm along', () => {
    const { draw } = banded()
    draw.advance(62_000)
    expect(draw.state().exceptions.map(({ kind }) => kind)).toEqual(['bandOver'])
    draw.does('goBack')
    expect(draw.state().exceptions).toEqual([])
  })

  it('goes on through a reload, and calls only what is newest', () => {
    const { draw, on_ms } = banded()
    draw.advance(10_000)
    draw.beAway('crash', 40_000)
    expect(shown(draw, 'band')).toBe(50)
    draw.advance(11_000)
    expect(cuesSince(draw, on_ms, 'band')).toEqual(['second 50', 'last 55', 'up 60'])
  })

  it('counts a sleep of the computer in full', () => {
    const { draw } = banded()
    draw.beAway('sleep', 90_000)
    expect(shown(draw, 'band')).toBe(90)
    expect(draw.state().exceptions.map(({ kind }) => kind)).toEqual(['bandOver'])
  })

  it('is not helped by a clock set back, nor harmed for good by one set back again', () => {
    const { draw } = banded()
    draw.advance(10_000)
    draw.setClock(-3_600_000)
    draw.advance(20_000)
    expect(shown(draw, 'band')).toBe(30)
    draw.setClock(3_600_000)
    expect(shown(draw, 'band')).toBe(30)
  })

  it('is known over a reload when the page saw the clock being set', () => {
    for (const by_ms of [-3_600_000, -60_000]) {
      const { draw } = banded()
      draw.advance(10_000)
      draw.setClock(by_ms)
      draw.beAway('crash', 1000)
      expect(shown(draw, 'band')).toBe(11)
    }
  })

  it('with a clock set back over a reload counts as over, and keeps calling every 5 s', () => {
    const { draw } = banded()
    draw.advance(10_000)
    // The clock is set while no page runs to see it.
    draw.beAway('crash', -59_000)
    expect(shown(draw, 'band')).toBe(Infinity)
    expect(draw.state().exceptions.map(({ kind }) => kind)).toEqual(['bandOver'])
    const before = cuesSince(draw, 0, 'band').length
    draw.advance(20_000)
    expect(cuesSince(draw, 0, 'band').length - before).toBe(4)
    expect(nextCueIn_ms(draw.state(), draw.now())).toBeLessThanOrEqual(5000)
  })
})

describe('waits', () => {
  it('do not end early when the clock was set forward before a reload', () => {
    const draw = drawDriver()
    draw.does(...TO_CLEAN)
    draw.advance(3000)
    draw.setClock(3_600_000)
    draw.advance(1000)
    draw.beAway('crash', 2000)
    expect(shown(draw, 'drying')).toBe(6)
    draw.does('skinDry')
    expect(draw.state().flags.map(({ flag }) => flag)).toContain('skinNotDry')
  })

  it('are held against the shortest time that can have passed: a sleep dries nothing for sure', () => {
    const draw = drawDriver()
    draw.does(...TO_CLEAN)
    draw.beAway('sleep', 60_000)
    expect(shown(draw, 'drying')).toBe(0)
    draw.advance(30_000)
    expect(shown(draw, 'drying')).toBe(30)
    draw.does('skinDry')
    expect(draw.flags()).not.toContain('skinNotDry')
  })

  it('start afresh when the skin is cleaned again', () => {
    const draw = drawDriver()
    draw.does(...TO_CLEAN)
    draw.advance(25_000)
    draw.does('skinClean')
    expect(shown(draw, 'drying')).toBe(0)
    draw.advance(29_000)
    expect(cuesSince(draw, 0, 'drying').length).toBe(0)
    draw.advance(1000)
    expect(cuesSince(draw, 0, 'drying').length).toBe(1)
  })

  it('two minutes of rest run for the arm in question only', () => {
    const { draw } = banded()
    draw.advance(60_000)
    draw.does('bandOff')
    expect(shown(draw, 'rest')).toBe(0)
    draw.does('chooseArm:right')
    expect(shown(draw, 'rest')).toBeUndefined()
    draw.does('chooseArm:left')
    expect(shown(draw, 'rest')).toBe(2)
  })

  it('no rest runs after a stretch that kept to the minute', () => {
    const { draw } = banded()
    draw.advance(30_000)
    draw.does('bandOff')
    expect(shown(draw, 'rest')).toBeUndefined()
  })
})

describe('every clock', () => {
  const kinds = (draw: DrawDriver): readonly ClockKind[] =>
    clocksOf(draw.state()).map(({ kind }) => kind)

  it('runs when it should', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    expect(kinds(draw)).toEqual(['band', 'flash'])
    draw.does('flashSeen', 'tubeOn')
    expect(kinds(draw)).toEqual(['band', 'fill'])
    draw.does('bandOff', 'tubeFull')
    expect(kinds(draw)).toEqual(['mix', 'clot', 'spinBy'])
    draw.does('needlestick')
    expect(kinds(draw)).toContain('exposure')
  })

  it('asks for the spin by the earlier of clotting and separation', () => {
    const spinBy_min = (separate: number): number | undefined => {
      const separate_min = { value: separate, source: 'site rule', backing: 'site' as const }
      const policy = { ...samplePolicy, limits: { ...samplePolicy.limits, separate_min } }
      const draw = drawDriver({ policy })
      toTubesDone(draw)
      const clock = clocksOf(draw.state()).find(({ kind }) => kind === 'spinBy')
      return clock && clock.length_ms / 60_000
    }
    // Clotting not past 90 min by the shipped policy.
    expect(spinBy_min(120)).toBe(90)
    expect(spinBy_min(45)).toBe(45)
  })

  it('pressure, then watching, then none', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn')
    expect(kinds(draw)).toContain('pressure')
    draw.does('bleedingStopped')
    expect(kinds(draw)).toContain('watch')
    draw.does('bandageOn')
    expect(kinds(draw)).not.toContain('watch')
  })

  it('has a cue that is given once, also over a reload', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.advance(31 * 60_000)
    expect(cuesSince(draw, 0, 'clot').length).toBe(1)
    draw.beAway('crash', 5000)
    expect(dueCues(draw.state(), draw.now())).toEqual([])
    expect(cuesSince(draw, 0, 'clot').length).toBe(1)
  })

  it('takes no cue for a clock that does not run', () => {
    const { draw } = banded()
    draw.does('bandOff')
    expect(
      draw.dispatch(
        { type: 'giveCue', cue: { kind: 'band', ordinal: '1', from_ms: 0, cue: 'up' }, late_ms: 0 },
        'clock',
      ).kind,
    ).toBe('impossible')
  })
})
