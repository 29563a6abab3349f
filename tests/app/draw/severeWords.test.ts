import { describe, expect, it } from 'vitest'
import { effectsOf } from '../../../src/app/draw/effects.ts'
import { EXCEPTION_TABLE } from '../../../src/core/protocol/exceptionTable.ts'
import { EXCEPTION_KINDS } from '../../../src/core/protocol/exceptions.ts'
import * as drawFacts from '../../../src/core/protocol/facts.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { drawDriver, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { viewOf } from '../../support/viewTexts.ts'

const severe = EXCEPTION_KINDS.filter((kind) => EXCEPTION_TABLE[kind].endsPuncture)
const texts: Record<string, string> = prompts.prompts

/** Every way band, tube and needle can be, with the words that must come first. */
const PLACES: readonly (readonly [string, (draw: DrawDriver) => void, string])[] = [
  ['nothing', () => undefined, ''],
  ['the band', (d) => d.does('bandOn'), 'Band off.'],
  ['the needle', (d) => { toNeedleIn(d); d.does('bandOff') }, 'Needle out.'],
  ['band and needle', (d) => toNeedleIn(d), 'Band off. Needle out.'],
  ['tube and needle', (d) => { toNeedleIn(d); d.does('tubeOn', 'bandOff') }, 'Tube off. Needle out.'],
  ['all three', (d) => { toNeedleIn(d); d.does('tubeOn') }, 'Band off. Tube off. Needle out.'],
  ['a tube, the needle already out', (d) => { toNeedleIn(d); d.does('tubeOn', 'bandOff', 'needleOut') }, 'Tube off.'],
  ['band and tube, the needle already out', (d) => { toNeedleIn(d); d.does('tubeOn', 'needleOut') }, 'Band off. Tube off.'],
] // prettier-ignore

/** What is said of a command, in words. */
function saidOf(draw: DrawDriver, kind: (typeof severe)[number]): string {
  const before = draw.state()
  draw.advance(1000)
  expect(draw.tries({ type: 'raise', kind }).kind).toBe('record')
  const entries = draw.log().filter(({ seq }) => seq > before.last.seq)
  const change = { before, after: draw.state(), entries, foreign: 0 }
  return effectsOf(change as never, prompts)
    .prompts.map((key) => texts[key])
    .join(' ')
}

describe.each(severe)('%s', (kind) => {
  it.each(PLACES)('with %s in place: first what is on comes off', (_name, to, first) => {
    const draw = drawDriver()
    to(draw)
    const said = saidOf(draw, kind)
    expect(said.startsWith(first)).toBe(true)
    const rest = said.slice(first.length)
    expect(rest).not.toMatch(/band off|tube off|needle out/i)
    expect(rest.trim().length).toBeGreaterThan(5)
    if (first) expect(viewOf(draw).severe?.instruction.startsWith(first)).toBe(true)
  })
})

describe('the needle', () => {
  it('is never called out by a prompt that forgets the band or the tube', () => {
    const naming = Object.entries(texts).filter(([, text]) => /needle out/i.test(text))
    expect(
      naming
        .map(([key]) => key)
        .filter((key) => !key.startsWith('off.'))
        .sort(),
    ).toEqual(['step.needleOut'])
    // The step for it comes only once band and tube are off.
    for (const [, to] of PLACES) {
      const draw = drawDriver()
      to(draw)
      if (draw.step() !== 'needleOut') continue
      expect(drawFacts.bandIsOn(draw.state()) || drawFacts.tubeIsOn(draw.state())).toBe(false)
    }
  })

  it('taken after the draw was stopped is answered in the same order', () => {
    const draw = drawDriver()
    draw.does('bandOn', 'stopEverything')
    const before = draw.state()
    draw.does('needleIn')
    const entries = draw.log().filter(({ seq }) => seq > before.last.seq)
    const flags = entries.flatMap(({ event }) => (event.type === 'flagRaised' ? [event.flag] : []))
    expect(flags).toContain('afterStop')
  })
})

describe('remarks for the record', () => {
  it('are not spoken', () => {
    for (const text of Object.values(texts)) expect(text).not.toMatch(/noted/i)
  })

  it('nothing spoken alarms the patient', () => {
    // Words that a review by the trade would not have in front of a patient.
    for (const text of Object.values(texts)) {
      expect(text).not.toMatch(/wrong|artery|slow flow|too briefly|out of order|was stopped/i)
    }
  })
})
