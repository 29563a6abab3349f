import { describe, expect, it } from 'vitest'
import type { Command } from '../../../src/core/protocol/commands.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import type { UnlabelledEnd } from '../../../src/core/protocol/events.ts'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { texts } from '../../../src/data/en/texts.ts'
import { drawDriver, toBandage, type DrawDriver } from '../../support/drawDriver.ts'
import { bundleOf, ofType } from '../../support/fhirBundle.ts'
import { SAMPLE_DRAW_ID } from '../../support/sampleLog.ts'

const settle = (tubeId: string, how: UnlabelledEnd, by = 'Robin Example'): Command => ({
  type: 'settleUnlabelled',
  tubeId,
  how,
  by,
})

const logOf = (draw: DrawDriver): DrawLog => ({
  format: 'stillhand-log',
  version: 1,
  drawId: SAMPLE_DRAW_ID,
  entries: draw.log(),
})

/** Both tubes labeled and read back; then one without a label is found. */
function found(): DrawDriver {
  const draw = drawDriver()
  toBandage(draw)
  draw.does('labelMatches', 'labelMatches', 'labelsDone', 'unlabelledTube')
  return draw
}

describe('a tube that is found without a label', () => {
  it('holds up labels and rack until it is said which it is and what becomes of it', () => {
    const draw = found()
    expect(draw.step()).toBe('unlabelled')
    const open = { kind: 'impossible', why: 'unlabelledOpen' }
    expect(draw.tries('labelsDone')).toEqual(open)
    expect(draw.tries('specimensRacked')).toEqual(open)
    expect(draw.tries('exceptionHandled')).toEqual({ kind: 'impossible', why: 'notDecided' })
    expect(draw.open().step).not.toContain('exceptionHandled')
  })

  it.each([
    ['stayedInHand', 'unlabelledInHand'],
    ['discarded', 'unlabelledDiscard'],
    ['sentAsIs', 'unlabelledAsIs'],
  ] as const)('asks again before it is charted: %s', (how, ask) => {
    const draw = found()
    expect(draw.dispatch(settle('t2', how), 'touch')).toEqual({ kind: 'ask', ask })
    expect(draw.step()).toBe('unlabelled')
    expect(draw.tries(settle('t2', how)).kind).toBe('record')
    expect(draw.step()).not.toBe('unlabelled')
  })

  it('is never settled without a name, for a tube that is not there, or where none was found', () => {
    const draw = found()
    expect(draw.tries(settle('t2', 'sentAsIs', '  '))).toMatchObject({ why: 'notDecided' })
    expect(draw.tries(settle('t9', 'sentAsIs'))).toMatchObject({ why: 'noSpecimens' })
    const other = drawDriver()
    toBandage(other)
    expect(other.tries(settle('t2', 'sentAsIs'))).toMatchObject({ why: 'nothingOpen' })
  })

  it('labeled beside the patient it is read back like any other, and labels are gone through again', () => {
    const draw = found()
    draw.tries(settle('t2', 'stayedInHand'))
    expect(draw.step()).toBe('labels')
    expect(draw.open().main).toBe('labelMatches')
    draw.does('labelMatches', 'labelsDone')
    expect(draw.flags()).not.toContain('labelsNotReadBack')
    expect(recordNote(logOf(draw), texts).text).toMatch(
      /02: never left the hand since .*; Robin Example, /,
    )
    const risk = specimenRisks(logOf(draw), texts.record).find(({ code }) => code === 'unlabelled')
    expect(risk).toMatchObject({ tubeIds: ['t2'] })
    expect(risk?.found).toContain('Robin Example')
  })

  it('thrown away it is charted as lost, its blood counts, and another is drawn under a new number', () => {
    const draw = found()
    draw.tries(settle('t2', 'discarded'))
    expect(draw.state().lost).toHaveLength(1)
    expect(draw.state().redrawn).toEqual({ t2: 51 })
    expect(draw.step()).toBe('again')
    const { text } = recordNote(logOf(draw), texts)
    expect(text).toContain('found without a label, thrown away')
    expect(text).toContain('D7261125000302, not given again')
  })

  it('sent as it is it has no label anywhere, and the laboratory is told', () => {
    const draw = found()
    draw.tries(settle('t2', 'sentAsIs'))
    expect(draw.open().main).toBe('labelsDone')
    expect(draw.tries({ type: 'scanLabel', text: 'D7261125000302' })).toMatchObject({
      kind: 'impossible',
      why: 'goesUnlabelled',
    })
    draw.does('labelsDone')
    expect(draw.flags()).toContain('labelsNotReadBack')
    const log = logOf(draw)
    expect(labelsFor(log).map(({ unlabelled }) => unlabelled)).toEqual([false, true])
    expect(recordNote(log, texts).text).toContain('NONE: given to the laboratory without a label')
    const specimen = ofType(bundleOf(log), 'Specimen')[1]
    expect(specimen?.condition).toContainEqual({ text: 'Given without a label' })
    expect(specimen?.note?.map(({ text }) => text).join()).toContain('Robin Example')
  })

  it('found once the draw is closed it cannot be labeled any more', () => {
    const draw = drawDriver()
    toBandage(draw)
    draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
    draw.does('unlabelledTube')
    expect(draw.tries(settle('t1', 'stayedInHand'))).toMatchObject({ why: 'closed' })
    expect(draw.tries(settle('t1', 'discarded')).kind).toBe('record')
  })
})
