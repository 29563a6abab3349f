import { describe, expect, it } from 'vitest'
import { clocksOf } from '../../../src/core/protocol/clocks.ts'
import type { PlainCommand } from '../../../src/core/protocol/commands.ts'
import { bodyIsSafe } from '../../../src/core/protocol/facts.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, toNeedleIn, toTubesDone, type DrawDriver } from '../../support/drawDriver.ts'
import { secondCollector } from '../../support/sampleLog.ts'
import { viewOf } from '../../support/viewTexts.ts'
import { HEEL_OPENING, SYRINGE_OPENING } from '../../walk/walkedOpening.ts'

/*
 * Wash needlesticks and cuts with soap and water, report, and seek medical treatment at once (NIOSH, from memory);
 * first aid before anything but the patient's safety is common practice, no source.
 */
const { firstAid } = texts.draw

/** What the screen asks for, one after another, until it asks for that. */
function until(draw: DrawDriver, last: PlainCommand | undefined): readonly string[] {
  const mains: string[] = []
  for (let i = 0; i < 20 && draw.open().main !== last; i++) {
    const { main } = draw.open()
    if (!main) break
    if (draw.step() === 'bleeding') draw.advance(300_000)
    mains.push(main)
    draw.does(main)
  }
  return mains
}

/** Stuck with the band on, the first tube filling and a second one waiting. */
function stuckWhileFilling(): DrawDriver {
  const draw = drawDriver()
  toNeedleIn(draw)
  draw.does('flashSeen', 'tubeOn', 'needlestick')
  return draw
}

describe('whoever is stuck with the needle in', () => {
  it('makes the patient and the sharp safe, then washes, before a tube is turned or wrapped', () => {
    const draw = stuckWhileFilling()
    expect(until(draw, 'colleagueHere')).toEqual([
      'bandOff',
      'tubeShort',
      'pressureOn',
      'shieldClicked',
      'sharpsDone',
    ])
    const { severe, choices } = viewOf(draw)
    expect(severe?.instruction).toBe('Wash with soap. Do not squeeze.')
    expect(choices.find(({ place }) => place === 'main')).toMatchObject({
      label: 'Colleague is here',
      phrases: ['colleague is here', 'colleague takes over'],
      key: 'Space',
    })
    expect(bodyIsSafe(draw.state())).toBe(true)
    draw.does('colleagueHere')
    expect(viewOf(draw).severe).toBeUndefined()
    expect(until(draw, undefined)).toEqual(['tubeMixed', 'bleedingStopped', 'bandageOn'])
    expect(draw.step()).toBe('colleague')
  })

  it('keeps first aid and its clock on the screen until who took over is written', () => {
    const draw = stuckWhileFilling()
    const since = draw.state().exceptions.find(({ kind }) => kind === 'needlestick')?.at.at_ms
    until(draw, 'colleagueHere')
    draw.does('colleagueHere')
    const clock = () => clocksOf(draw.state()).find(({ kind }) => kind === 'exposure')
    for (const step of ['mix', 'bleeding', 'bandage', 'colleague']) {
      expect(draw.step()).toBe(step)
      expect(viewOf(draw).step.points[0]).toBe(firstAid)
      expect(viewOf(draw).step.shown_n).toBeGreaterThan(0)
      expect(clock()?.from_ms).toBe(since)
      draw.advance(300_000)
      const { main } = draw.open()
      if (main) draw.does(main)
    }
    draw.tries({ type: 'handOver', to: secondCollector })
    expect(clock()).toBeUndefined()
    expect(viewOf(draw).step.points).not.toContain(firstAid)
  })

  it('who says that it is settled is led to the colleague, and never to a needle of their own', () => {
    const draw = stuckWhileFilling()
    until(draw, 'colleagueHere')
    draw.does('exceptionHandled')
    until(draw, undefined)
    expect(draw.step()).toBe('colleague')
    expect(draw.tries('tryAgain')).toEqual({ kind: 'impossible', why: 'colleagueUnnamed' })
    expect(clocksOf(draw.state()).map(({ kind }) => kind)).not.toContain('exposure')
    draw.tries({ type: 'handOver', to: secondCollector })
    until(draw, 'tryAgain')
    expect(draw.tries('tryAgain').kind).toBe('record')
  })
})

describe('whoever is stuck', () => {
  it('after the last tube goes on to the labels once it is settled: no needle is wanted any more', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.does('lastTube', 'pressureOn', 'needlestick', 'shieldClicked', 'sharpsDone')
    expect(draw.open().main).toBe('colleagueHere')
    draw.does('exceptionHandled')
    until(draw, 'labelMatches')
    expect(draw.step()).toBe('labels')
  })

  it('before any needle puts none in', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies')
    draw.does('needlestick')
    expect(draw.open().main).toBe('colleagueHere')
    draw.does('exceptionHandled')
    expect(draw.step()).toBe('colleague')
  })

  it('with blood in the syringe leaves it to the colleague', () => {
    const draw = drawDriver(SYRINGE_OPENING)
    toNeedleIn(draw)
    draw.does('flashSeen', 'bandOff', 'syringeFull', 'pressureOn', 'needlestick', 'shieldClicked')
    expect(draw.open().main).toBe('colleagueHere')
    draw.does('colleagueHere')
    expect(draw.step()).toBe('transfer')
  })

  it('by a lancet is led to a colleague, not to a second opinion or a vein of their own', () => {
    const draw = drawDriver(HEEL_OPENING)
    until(draw, undefined)
    draw.tries({ type: 'chooseSide', arm: 'left' })
    draw.does('siteWarm', 'skinClean', 'skinDry', 'lanced', 'needlestick')
    expect(until(draw, 'colleagueHere')).toEqual(['pressureOn', 'sharpsDone'])
    expect(viewOf(draw).severe?.instruction).toBe('Wash with soap. Do not squeeze.')
    draw.does('exceptionHandled')
    until(draw, undefined)
    expect(draw.step()).toBe('colleague')
    expect(draw.tries({ type: 'goToVein', why: 'needsVein' }).kind).toBe('impossible')
  })

  it('after the close has nobody to hand over to', () => {
    const draw = drawDriver()
    draw.does('endDraw', 'needlestick')
    expect(draw.open().main).toBe('exceptionHandled')
    draw.does('exceptionHandled')
  })

  it('is asked no more of it once it is taken back', () => {
    const draw = stuckWhileFilling()
    draw.does('goBack')
    expect(draw.state().pricked).toBeUndefined()
    expect(draw.step()).toBe('release')
  })
})
