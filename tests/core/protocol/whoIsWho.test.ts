import { describe, expect, it } from 'vitest'
import { armClosedBy, identityChecked, isForbidden } from '../../../src/core/protocol/facts.ts'
import { drawDriver, TO_HANDS } from '../../support/drawDriver.ts'
import { sampleOpening } from '../../support/sampleLog.ts'

const { patient, preparation } = sampleOpening()

describe('identity', () => {
  it('is what the patient says, without more words', () => {
    const draw = drawDriver()
    draw.does('confirmPatient')
    expect(draw.last().map((event) => 'how' in event)).toEqual([false, false])
    expect(identityChecked(draw.state())).toBe(true)
  })

  it.each(['carer', 'interpreter'] as const)('may be said by a %s, and that is charted', (by) => {
    const draw = drawDriver()
    draw.does(`identified:${by}`)
    expect(draw.last()).toEqual([
      { type: 'identifierChecked', identifier: 'fullName', matches: true, how: by },
      { type: 'identifierChecked', identifier: 'birthDate', matches: true, how: by },
    ])
    expect(draw.step()).toBe('consent')
  })

  it('read from the wristband brings the record number with it', () => {
    const draw = drawDriver()
    draw.does('identified:wristband')
    expect(draw.state().identifiers).toEqual({
      fullName: true,
      birthDate: true,
      recordNumber: true,
    })
  })

  it('scanned is held against the order, and is not enough alone', () => {
    const draw = drawDriver()
    draw.tries({ type: 'scanLabel', text: ` ${patient.recordNumber} ` }, 'scanner')
    expect(draw.state().identifiers).toEqual({ recordNumber: true })
    expect(draw.step()).toBe('identity')
    expect(draw.flags()).toEqual([])
  })

  it('of somebody else is flagged when it is scanned', () => {
    const draw = drawDriver()
    draw.tries({ type: 'scanLabel', text: 'MRN-999999' }, 'scanner')
    expect(draw.flags()).toEqual(['wristbandMismatch'])
    // It stops: what is asked first is who this is, not the name once more.
    expect(draw.step()).toBe('wristband')
  })

  it('scanned after the patient was confirmed is held against the order all the same', () => {
    const draw = drawDriver()
    draw.does('confirmPatient')
    draw.tries({ type: 'scanLabel', text: patient.recordNumber }, 'scanner')
    expect(draw.state().identifiers.recordNumber).toBe(true)
    draw.does('confirmConsent')
    draw.tries({ type: 'scanLabel', text: 'MRN-999999' }, 'scanner')
    expect(draw.state().identifiers.recordNumber).toBe(false)
    expect(draw.flags()).toEqual(['wristbandMismatch'])
  })
})

describe('a named decision', () => {
  const restrictions = { left: 'nodeRemoval', right: 'fistula' } as const
  const bothClosed = { preparation: { ...preparation, restrictions } }
  const decide = (decision: 'proceed' | 'stop') =>
    ({
      type: 'nameDecision',
      decision,
      by: 'Dr. Pat Placeholder',
      about: 'restrictedArm',
      why: 'no other access',
    }) as const

  it('opens an arm that was closed, and says who and why', () => {
    const draw = drawDriver(bothClosed)
    draw.does(...TO_HANDS)
    expect(draw.open().step).not.toContain('chooseArm:left')
    draw.tries(decide('proceed'), 'touch')
    expect(draw.last()).toEqual([
      {
        type: 'decisionNamed',
        decision: 'proceed',
        by: 'Dr. Pat Placeholder',
        about: 'restrictedArm',
        why: 'no other access',
      },
    ])
    expect(draw.open().step).toContain('chooseArm:left')
    draw.does('chooseArm:left', 'bandOn')
    expect(draw.flags()).toEqual([])
    expect(armClosedBy(draw.state(), 'left')).toBe('nodeRemoval')
  })

  it('may stop the draw', () => {
    const draw = drawDriver(bothClosed)
    draw.does(...TO_HANDS)
    draw.tries(decide('stop'), 'touch')
    draw.does('endDraw')
    expect(draw.state().closed?.outcome).toBe('notDrawn')
  })

  it('about the preparation stays what it was', () => {
    const draw = drawDriver()
    draw.does('confirmPatient', 'confirmConsent')
    draw.tries({ type: 'notPrepared', what: 'ate' }, 'touch')
    draw.tries({ type: 'nameDecision', decision: 'proceed', by: 'Dr. Pat Placeholder' }, 'touch')
    expect(draw.state().preparation).toBe('proceed')
  })

  it('taken before the draw was opened counts as well', () => {
    const approvals = [
      { about: 'bothArms', by: 'Dr. Pat Placeholder', reason: 'no other access', at_ms: 1 },
    ] as const
    const draw = drawDriver({ ...bothClosed, approvals })
    expect(isForbidden(draw.state(), 'left')).toBe(false)
  })
})
