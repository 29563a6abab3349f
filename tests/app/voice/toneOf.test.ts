import { describe, expect, it } from 'vitest'
import { toneOf } from '../../../src/app/voice/toneOf.ts'
import { CHIMES } from '../../../src/ports/sound.ts'
import prompts from '../../../src/data/en/prompts.json'

describe('the tone of a prompt', () => {
  it.each([
    ['step.band', 'next'],
    ['tube.edtaK2', 'next'],
    ['ask.endDraw', 'asked'],
    ['discreet.ask.closedArm', 'asked'],
    ['exception.noFlash', 'look'],
    ['discreet.exception.faint', 'look'],
    ['flag.skinNotDry', 'look'],
    ['off.bandNeedle', 'look'],
    ['handle.ice', 'handle'],
    ['app.away', 'look'],
    ['app.undone', 'told'],
    ['time.s40', 'told'],
    ['day.next.stat', 'told'],
  ])('%s is "%s"', (key, tone) => expect(toneOf(key)).toBe(tone))

  it('of a clock’s call is the chime that it has anyway', () => {
    expect(toneOf('cue.band.up')).toBe('timeUp')
    expect(toneOf('cue.fill.full')).toBe('tubeFull')
    expect(toneOf('discreet.cue.transfer.up')).toBe('timeUp')
    expect(toneOf('cue.flash.up')).toBe('look')
  })

  it('is there for every prompt, and never one that means something else', () => {
    const tones = new Set(Object.keys(prompts.prompts).map(toneOf))
    expect([...tones].filter((tone) => !CHIMES.includes(tone))).toEqual([])
    expect([...tones]).not.toContain('heard')
    expect([...tones]).not.toContain('notUnderstood')
    expect([...tones]).not.toContain('severe')
  })
})
