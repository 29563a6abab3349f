import { describe, expect, it } from 'vitest'
import { unexplained } from '../../../src/core/log/sense/unexplained.ts'
import { writeNote } from '../../../src/core/record/note.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { armClosedBy } from '../../../src/core/protocol/facts.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, TO_HANDS, type DrawDriver } from '../../support/drawDriver.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'

const logOf = (draw: DrawDriver) =>
  ({
    format: 'stillhand-log',
    version: 1,
    drawId: draw.state().opened.drawId,
    entries: draw.log(),
  }) as const

function toVein(): DrawDriver {
  const draw = drawDriver()
  draw.does(...TO_HANDS, 'chooseArm:left')
  return draw
}

describe('what is seen at the arm and nobody had told', () => {
  it.each([
    ['bruise', 'seen at the arm: left: bruise'],
    ['scar', 'seen at the arm: left: scar'],
    ['none', 'seen at the arm: left: nothing against it seen'],
  ] as const)('%s is recorded with the arm, which may still be used', (finding, words) => {
    const draw = toVein()
    expect(draw.open().step).toContain(`armFinding:${finding}`)
    draw.does(`armFinding:${finding}`)
    expect(draw.last()).toEqual([{ type: 'armSeen', arm: 'left', finding }])
    expect(draw.step()).toBe('vein')
    expect(armClosedBy(draw.state(), 'left')).toBeUndefined()
    expect(writeNote(logOf(draw), noteTemplate).text.toLowerCase()).toContain(words)
    expect(unexplained(logOf(draw))).toEqual([])
    expect(draw.tries(`armFinding:${finding}`)).toEqual({ kind: 'impossible', why: 'alreadyDone' })
  })

  it('an infusion asks for another arm, and that one is closed', () => {
    const draw = toVein()
    draw.does('armFinding:infusion')
    expect(draw.state().puncture.arm).toBeUndefined()
    expect(draw.step()).toBe('find')
    expect(draw.open().step).not.toContain('chooseArm:left')
    draw.does('chooseArm:right')
    expect(draw.flags()).toEqual([])
  })

  it('an arm with an infusion that is used all the same is flagged, and a risk for its tubes', () => {
    const draw = toVein()
    draw.does(
      'armFinding:infusion',
      'chooseArm:left',
      'needleIn',
      'flashSeen',
      'tubeOn',
      'tubeFull',
    )
    expect(draw.flags()).toContain('restrictedArm')
    const risks = specimenRisks(logOf(draw), texts.record)
    expect(risks.map(({ code }) => code)).toContain('infusionArm')
  })

  it('an infusion seen with the band on: first the band comes off', () => {
    const draw = toVein()
    draw.does('bandOn', 'armFinding:infusion')
    expect(draw.step()).toBe('release')
    draw.does('bandOff')
    expect(draw.step()).toBe('site')
  })

  it('is taken back like anything said in error', () => {
    const draw = toVein()
    draw.does('armFinding:infusion', 'goBack')
    expect(draw.state().puncture.arm).toBe('left')
  })

  it('cannot be said of no arm', () => {
    const draw = drawDriver()
    draw.does(...TO_HANDS)
    expect(draw.tries('armFinding:bruise')).toEqual({ kind: 'impossible', why: 'notDecided' })
  })
})
