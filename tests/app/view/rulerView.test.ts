import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rulerView } from '../../../src/app/view/rulerView.ts'
import { PLAIN_COMMANDS } from '../../../src/core/protocol/commands.ts'
import { mainOf } from '../../../src/core/protocol/steps.ts'
import { drawDriver, type DrawDriver } from '../../support/drawDriver.ts'
import { viewTexts } from '../../support/viewTexts.ts'

const rulerOf = (draw: DrawDriver) => rulerView(draw.state(), viewTexts)
const wordsOf = (draw: DrawDriver): readonly string[] => rulerOf(draw).marks.map(({ text }) => text)

/** The needle is in, after a stretch of the band to find the vein. */
function drawing(): DrawDriver {
  const draw = drawDriver()
  draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies')
  draw.does('confirmHands', 'bandOn', 'chooseArm:left', 'chooseVein:medianCubital', 'bandOff')
  draw.does('skinClean')
  draw.advance(31_000)
  draw.does('skinDry', 'bandOn', 'needleIn', 'flashSeen')
  return draw
}

describe('rulerView', () => {
  it('gathers band, needle and tubes with the cap in words, as they come', () => {
    const draw = drawing()
    expect(wordsOf(draw)).toEqual(['band 0:03', 'band on', 'needle in'])
    draw.does('tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'tubeOn')
    const [, , , first, second] = wordsOf(draw)
    const [one, two] = draw.state().plan.tubes
    expect([first, second]).toEqual([`1 ${one?.closure}`, `2 ${two?.closure}`])
    // On at the first of these, off four seconds later: needle, flash, tube, band off.
    expect(wordsOf(draw)[1]).toBe('band 0:04')
  })

  it('counts the tubes, and never the steps', () => {
    const draw = drawing()
    expect(rulerOf(draw).where).toBe('tube 1 of 2')
    draw.does('tubeOn', 'bandOff', 'tubeFull', 'tubeMixed')
    expect(rulerOf(draw).where).toBe('tube 2 of 2')
    draw.does('needleOut')
    expect(rulerOf(draw).where).toBe('1 of 2 tubes drawn')
  })

  it('hatches a band that was on for too long', () => {
    const draw = drawing()
    draw.advance(60_000)
    draw.does('bandOff')
    expect(rulerOf(draw).marks[1]).toMatchObject({ look: 'over', text: 'band 1:03, over' })
  })

  it('goes on behind the first attempt with the second', () => {
    const draw = drawing()
    draw.does('bandOff', 'needleOut', 'pressureOn')
    const before = rulerOf(draw).marks.map(({ seq }) => seq)
    draw.tries('needleIn')
    expect(
      rulerOf(draw)
        .marks.map(({ seq }) => seq)
        .slice(0, before.length),
    ).toEqual(before)
    expect(wordsOf(draw).at(-1)).toBe('needle, try 2')
  })

  it('never runs back, whatever comes, unless something is taken back', () => {
    const move = fc.oneof(
      { weight: 3, arbitrary: fc.constant('main' as const) },
      { weight: 1, arbitrary: fc.constantFrom(...PLAIN_COMMANDS.filter((c) => c !== 'goBack')) },
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(move, fc.nat(20_000)), { maxLength: 40 }), (moves) => {
        const draw = drawing()
        let before = rulerOf(draw).marks.map(({ seq }) => seq)
        for (const [what, wait_ms] of moves) {
          draw.advance(wait_ms)
          const command = what === 'main' ? mainOf(draw.state()) : what
          if (command) draw.tries(command)
          const now = rulerOf(draw).marks.map(({ seq }) => seq)
          expect(now.slice(0, before.length)).toEqual(before)
          before = now
        }
      }),
      { numRuns: 40 },
    )
  }, 60_000)
})
