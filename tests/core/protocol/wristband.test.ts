import { describe, expect, it } from 'vitest'
import { identityChecked } from '../../../src/core/protocol/facts.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import { drawDriver, TO_CLEAN, type DrawDriver } from '../../support/drawDriver.ts'
import { sampleOpening, secondCollector } from '../../support/sampleLog.ts'

const { recordNumber } = sampleOpening().patient
const others: Command = { type: 'scanLabel', text: 'MRN-999999' }
const own: Command = { type: 'scanLabel', text: recordNumber }
const goOn: Command = {
  type: 'nameDecision',
  decision: 'proceed',
  by: 'Dr. Pat Placeholder',
  about: 'wristband',
  why: 'band of the last stay, name and birth date agree',
}

function toMismatch(): DrawDriver {
  const draw = drawDriver()
  draw.does('confirmPatient', 'confirmConsent')
  draw.tries(others, 'scanner')
  return draw
}

describe('a wristband that differs', () => {
  it('stops the draw at whatever step it is scanned, before the needle', () => {
    const draw = toMismatch()
    expect(draw.step()).toBe('wristband')
    expect(draw.open().main).toBeUndefined()
    expect(draw.open().step).toEqual(
      expect.arrayContaining(['refuseIdentity', 'endDraw', 'withdrawConsent']),
    )
    expect(draw.open().step).not.toContain('confirmPreparation')
  })

  it('is not talked away by confirming the name again', () => {
    const draw = toMismatch()
    draw.tries('confirmPatient')
    expect(identityChecked(draw.state())).toBe(false)
    expect(draw.step()).toBe('wristband')
  })

  it('ends in a stop, where it is another patient', () => {
    const draw = toMismatch()
    draw.does('refuseIdentity', 'exceptionHandled', 'endDraw')
    expect(draw.state().closed?.outcome).toBe('notDrawn')
  })

  it('is put right by a scan of the right one, or by taking the scan back', () => {
    const right = toMismatch()
    right.tries(own, 'scanner')
    expect(right.step()).toBe('preparation')
    const back = toMismatch()
    back.does('goBack')
    expect(back.step()).toBe('preparation')
    expect(back.log().some(({ event }) => event.type === 'entryUndone')).toBe(true)
  })

  it('lets the draw go on where somebody named decides, until another is scanned', () => {
    const draw = toMismatch()
    draw.tries(goOn, 'touch')
    expect(draw.step()).toBe('preparation')
    draw.tries(others, 'scanner')
    expect(draw.step()).toBe('wristband')
  })

  it('still differs for a colleague who takes over', () => {
    const draw = toMismatch()
    draw.tries({ type: 'handOver', to: secondCollector }, 'touch')
    draw.tries('confirmPatient')
    expect(draw.step()).toBe('wristband')
  })

  it('flags a needle that goes in all the same, and the draw is not closed before it is answered', () => {
    const draw = drawDriver()
    draw.does(...TO_CLEAN)
    draw.tries(others, 'scanner')
    draw.does('needleIn')
    expect(draw.flags()).toContain('identityNotChecked')
    draw.does('pressureOn', 'shieldClicked', 'sharpsDone')
    draw.advance(300_000)
    draw.does('bleedingStopped', 'bandageOn')
    expect(draw.step()).toBe('wristband')
    expect(draw.tries('endDraw')).toEqual({ kind: 'impossible', why: 'identityOpen' })
  })
})
