import { describe, expect, it } from 'vitest'
import { tubeAsked } from '../../../src/core/protocol/settleUnlabelled.ts'
import { commandOf } from '../../../src/core/protocol/openCommands.ts'
import { factsOf } from '../../../src/core/record/factsOf.ts'
import { stripOf } from '../../../src/core/record/rulerStrip.ts'
import { drawDriver, toBandage, type DrawDriver } from '../../support/drawDriver.ts'

function found(): DrawDriver {
  const draw = drawDriver()
  toBandage(draw)
  draw.does('unlabelledTube')
  return draw
}

// Which tube, what is decided and by whom is asked before anything goes on; laboratories reject an unlabeled tube and
// want it drawn again (labeling pages of hospital laboratories, second-hand). That voice is enough: our own rule.
describe('a tube without a label, settled by voice', () => {
  it('is named first where there are several: what becomes of it is not taken before', () => {
    const draw = found()
    expect(draw.open().step).toEqual(expect.arrayContaining(['unlabelledIs:1', 'unlabelledIs:2']))
    expect(draw.open().step).not.toContain('unlabelledIs:3')
    expect(draw.open().step).not.toContain('unlabelledEnd:discarded')
    expect(draw.tries('unlabelledEnd:discarded')).toMatchObject({ why: 'unlabelledWhich' })
  })

  it('is settled once it is named and the question about that very tube is answered', () => {
    const draw = found()
    draw.does('unlabelledIs:2')
    const end = commandOf('unlabelledEnd:sentAsIs')
    const asked = draw.dispatch(end, 'voice', undefined, false)
    expect(asked).toMatchObject({ kind: 'ask', ask: 'unlabelledAsIs' })
    expect(tubeAsked(draw.state(), end)).toBe('t2')
    draw.does('unlabelledEnd:sentAsIs')
    expect(draw.last()).toContainEqual({ type: 'unlabelledSettled', tubeId: 't2', how: 'sentAsIs', by: draw.state().collector.name }) // prettier-ignore
    expect(draw.state().unlabelled).toEqual(['t2'])
    expect(draw.step()).toBe('labels')
  })

  it('another number takes the place of one that was misheard', () => {
    const draw = found()
    draw.does('unlabelledIs:1', 'unlabelledIs:2', 'unlabelledEnd:discarded')
    expect(draw.state().tubes.find(({ id }) => id === 't2')?.swaps).toBe(1)
    expect(draw.state().tubes.find(({ id }) => id === 't1')?.swaps).toBe(0)
  })

  it('keeps the answers at their places: the same key again changes nothing and charts nothing', () => {
    const draw = found()
    const numbers = (): readonly string[] => draw.open().step.filter((key) => key.startsWith('unlabelledIs:')) // prettier-ignore
    const before = numbers()
    draw.does('unlabelledIs:1')
    expect(numbers()).toEqual(before)
    const length = draw.log().length
    draw.does('unlabelledIs:1')
    expect(draw.log()).toHaveLength(length)
    expect(draw.state().exceptions).toMatchObject([{ kind: 'unlabelledTube', tubeId: 't1' }])
  })

  it.each([
    ['by voice', 'unlabelledEnd:sentAsIs' as const],
    ['by the form', { type: 'settleUnlabelled', tubeId: 't2', how: 'sentAsIs', by: 'R. Example' } as const], // prettier-ignore
  ])('is one event in the note and on the ruler, of the tube it was in the end: %s', (_, end) => {
    const draw = found()
    draw.does('unlabelledIs:1', 'unlabelledIs:2', 'unlabelledIs:1', 'unlabelledIs:2')
    draw.dispatch(typeof end === 'string' ? commandOf(end) : end, 'touch', undefined, true)
    const log = { format: 'stillhand-log', version: 1, drawId: 'd', entries: draw.log() } as const
    expect(factsOf(log).exceptions).toMatchObject([
      { kind: 'unlabelledTube', tubeId: 't2', ended: { how: 'sentAsIs' } },
    ])
    const raised = stripOf(draw.log()).marks.filter(({ event }) => event.type === 'exceptionRaised')
    expect(raised).toHaveLength(1)
  })

  it('is an event of its own once the one before is settled', () => {
    const draw = found()
    draw.does('unlabelledIs:1', 'unlabelledEnd:sentAsIs', 'unlabelledTube', 'unlabelledIs:2')
    const log = { format: 'stillhand-log', version: 1, drawId: 'd', entries: draw.log() } as const
    expect(factsOf(log).exceptions.map(({ tubeId }) => tubeId)).toEqual(['t1', 't2'])
    const raised = stripOf(draw.log()).marks.filter(({ event }) => event.type === 'exceptionRaised')
    expect(raised).toHaveLength(2)
  })

  it('says of a tube that never left the hand that its label is due, and not that it is read', () => {
    const draw = found()
    draw.does('unlabelledIs:1', 'unlabelledEnd:stayedInHand')
    expect(draw.step()).toBe('labels')
    expect(draw.state().readBack).toEqual({})
  })

  it('needs no number where only one tube holds blood', () => {
    const draw = drawDriver({ plan: { ...drawDriver().state().plan, tubes: drawDriver().state().plan.tubes.slice(0, 1) } }) // prettier-ignore
    toBandageOfOne(draw)
    draw.does('unlabelledTube', 'unlabelledEnd:discarded')
    expect(draw.state().exceptions.map(({ kind }) => kind)).not.toContain('unlabelledTube')
  })

  it('nothing of it can be said where no tube was found without a label', () => {
    const draw = drawDriver()
    toBandage(draw)
    expect(draw.tries('unlabelledIs:1')).toMatchObject({ why: 'nothingOpen' })
    expect(draw.tries('unlabelledEnd:discarded')).toMatchObject({ why: 'nothingOpen' })
  })
})

function toBandageOfOne(draw: DrawDriver): void {
  draw.does('confirmPatient', 'confirmConsent', 'confirmPreparation', 'confirmSupplies', 'confirmHands') // prettier-ignore
  draw.does('chooseArm:left', 'chooseVein:medianCubital', 'skinClean')
  draw.advance(30_000)
  draw.does('skinDry', 'bandOn', 'needleIn', 'flashSeen', 'tubeOn', 'bandOff', 'tubeFull', 'tubeMixed', 'lastTube', 'pressureOn', 'shieldClicked', 'sharpsDone') // prettier-ignore
  draw.advance(300_000)
  draw.does('bleedingStopped')
  draw.advance(10_000)
  draw.does('bandageOn')
}
