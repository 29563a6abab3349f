import { describe, expect, it } from 'vitest'
import { effectsOf } from '../../../src/app/draw/effects.ts'
import { noticeOf } from '../../../src/app/draw/noticeOf.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import prompts from '../../../src/data/en/prompts.json' with { type: 'json' }
import { texts } from '../../../src/data/en/texts.ts'
import words from '../../../src/data/en/words.json' with { type: 'json' }
import { drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'

/** What is shown and spoken once a command was recorded. */
function told(draw: DrawDriver, command: Command) {
  const before = draw.state()
  draw.advance(1000)
  draw.tries(command, command.type === 'scanLabel' ? 'scanner' : 'voice')
  const entries = draw.log().filter(({ seq }) => seq > before.last.seq)
  const change = { before, after: draw.state(), entries, foreign: 0 }
  return {
    notice: noticeOf(change, { words, prompts, texts }),
    said: effectsOf(change, prompts).prompts,
  }
}

describe('a scanned wristband', () => {
  it('that matches is told as such', () => {
    const text = sampleOpening().patient.recordNumber
    const { notice } = told(drawDriver(), { type: 'scanLabel', text })
    expect(notice).toEqual({ tone: 'info', text: texts.draw.notice.wristband })
  })

  it('that differs is told and spoken', () => {
    const { notice, said } = told(drawDriver(), { type: 'scanLabel', text: 'MRN-999999' })
    expect(notice).toEqual({
      tone: 'warn',
      text: words.flags.wristbandMismatch,
      large: prompts.prompts['flag.wristbandMismatch'],
      coded: prompts.prompts['discreet.flag.wristbandMismatch'],
    })
    expect(said).toEqual(['flag.wristbandMismatch'])
  })
})

describe('an interruption', () => {
  it('with the band on says that it is on', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS, 'bandOn')
    const { notice, said } = told(draw, { type: 'interrupted' })
    expect(said).toEqual(['exception.interrupted', 'app.bandIsOn'])
    expect(notice?.text).toContain('The band is on')
  })

  it('without it says nothing of it', () => {
    const { notice, said } = told(drawDriver(), { type: 'interrupted' })
    expect(said).toEqual(['exception.interrupted'])
    expect(notice?.text).not.toContain('band')
  })
})
