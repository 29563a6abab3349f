import { describe, expect, it } from 'vitest'
import { defined } from '../../../src/core/basics/defined.ts'
import { ARMS, type Arm } from '../../../src/core/order/order.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import { armClosedBy, isForbidden } from '../../../src/core/protocol/facts.ts'
import { drawDriver, TO_HANDS, toNeedleIn, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'

/** Cleared away and dealt with, so that another attempt is offered. */
function settle(draw: DrawDriver): void {
  draw.does('bandOff', 'pressureOn', 'shieldClicked', 'sharpsDone')
  draw.advance(600_000)
  draw.does('bleedingStopped')
  draw.advance(10_000)
  draw.does('bandageOn', 'exceptionHandled')
}

describe('an arm to which something happened', () => {
  it.each(['brightBlood', 'sharpPain', 'swelling'] as const)('is closed after %s', (kind) => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does(kind)
    settle(draw)
    draw.does('tryAgain')
    expect(armClosedBy(draw.state(), 'left')).toBe(kind)
    expect(armClosedBy(draw.state(), 'right')).toBeUndefined()
    expect(draw.open().step).not.toContain('chooseArm:left')
    // It can be recorded all the same: asked first, then flagged with the reason.
    expect(draw.open().happened).toContain('chooseArm:left')
    expect(draw.dispatch({ type: 'chooseArm', arm: 'left' }, 'touch')).toEqual({
      kind: 'ask',
      ask: 'closedArm',
    })
    draw.does('chooseArm:left')
    expect(draw.last()).toContainEqual({ type: 'flagRaised', flag: 'restrictedArm', detail: kind })
    draw.does('bandOn')
    expect(draw.last()).toContainEqual({ type: 'flagRaised', flag: 'restrictedArm' })
  })

  it('is not closed by what came before a needle was in it', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'chooseArm:left', 'sharpPain')
    expect(armClosedBy(draw.state(), 'left')).toBeUndefined()
  })

  it('stays closed when the arm is named only afterwards', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent', 'needleIn', 'swelling', 'chooseArm:right')
    expect(armClosedBy(draw.state(), 'right')).toBe('swelling')
  })

  it('is open again when the report is taken back', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('brightBlood', 'goBack')
    expect(armClosedBy(draw.state(), 'left')).toBeUndefined()
  })
})

describe('after a faint', () => {
  // "If a patient faints during the venipuncture, immediately abort the procedure": a laboratory education page.
  it('another needle is asked about before it is begun', () => {
    const draw = drawDriver()
    toNeedleIn(draw)
    draw.does('faint')
    settle(draw)
    expect(draw.dispatch({ type: 'tryAgain' }, 'voice')).toEqual({ kind: 'ask', ask: 'afterFaint' })
    draw.does('tryAgain')
    expect(armClosedBy(draw.state(), 'left')).toBeUndefined()
  })
})

describe('a provider’s go-ahead for a closed arm', () => {
  const preparation = {
    ...sampleOpening().preparation,
    restrictions: { left: 'nodeRemoval', right: 'fistula' },
  } as const
  const goAhead = (arm?: Arm): Command =>
    defined({
      type: 'nameDecision' as const,
      decision: 'proceed' as const,
      by: 'Dr. Pat Placeholder',
      about: 'restrictedArm' as const,
      why: 'no other access',
      arm,
    })
  const forbidden = (draw: DrawDriver) => ARMS.filter((arm) => isForbidden(draw.state(), arm))

  it('frees the arm that it names and no other', () => {
    const draw = drawDriver({ preparation })
    draw.tries(goAhead('left'), 'touch')
    expect(forbidden(draw)).toEqual(['right'])
  })

  it('that names none is used up by the arm chosen next', () => {
    const draw = drawDriver({ preparation })
    draw.does(...TO_HANDS)
    draw.tries(goAhead(), 'touch')
    draw.does('chooseArm:left')
    expect(forbidden(draw)).toEqual(['right'])
  })

  it('taken before the draw was opened is used up the same way', () => {
    const approvals = [
      { about: 'bothArms', by: 'Dr. Pat Placeholder', reason: 'no other access', at_ms: 1 },
    ] as const
    const draw = drawDriver({ preparation, approvals })
    draw.does(...TO_HANDS, 'chooseArm:right')
    expect(forbidden(draw)).toEqual(['left'])
  })

  it('covers no arm that was hurt after it, until one names that arm anew', () => {
    const draw = drawDriver()
    draw.tries(goAhead('left'), 'touch')
    toNeedleIn(draw)
    draw.does('brightBlood')
    expect(forbidden(draw)).toEqual(['left'])
    draw.tries(goAhead(), 'touch')
    expect(forbidden(draw)).toEqual(['left'])
    draw.tries(goAhead('left'), 'touch')
    expect(forbidden(draw)).toEqual([])
  })
})
