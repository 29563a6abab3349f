import { describe, expect, it } from 'vitest'
import { entryFault } from '../../../src/core/log/eventShape.ts'
import { checkLog } from '../../../src/core/log/checkLog.ts'
import type { BenchAct } from '../../../src/core/protocol/benchEvents.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { leftAt, specimenWays } from '../../../src/core/protocol/specimenWay.ts'
import { BENCH_FLAGS } from '../../support/benchFlags.ts'
import {
  drawDriver,
  toBandage,
  toTubesDone,
  twoTubes,
  type DrawDriver,
} from '../../support/drawDriver.ts'
import { sampleLog, sha256 } from '../../support/sampleLog.ts'
import { samplePlan, sampleTube } from '../../support/samplePlan.ts'

const MINUTE_ms = 60_000

/** A closed draw of a gel tube and an EDTA tube, some minutes after its band came off. */
function closed(change: Parameters<typeof drawDriver>[0] = {}): DrawDriver {
  const draw = drawDriver(change)
  toBandage(draw)
  draw.does('labelMatches', 'labelMatches', 'labelsDone', 'aftercareTold', 'specimensRacked')
  expect(draw.state().closed?.outcome).toBe('complete')
  return draw
}

const acts = (draw: DrawDriver, act: BenchAct) => draw.tries({ type: 'benchAct', act }, 'touch')
const wayOf = (draw: DrawDriver, id: string) =>
  specimenWays(draw.state().kept, ['t1', 't2']).get(id)
const bench = (draw: DrawDriver) =>
  draw.last().flatMap((event) => ('tubeIds' in event ? [event] : []))
const flagged = (draw: DrawDriver) =>
  draw.last().flatMap((event) => (event.type === 'flagRaised' ? [event.flag] : []))

describe('what is done with specimens after the draw', () => {
  it('stands in the log with its tubes, its setting and the id of the act', () => {
    const draw = closed()
    draw.advance(40 * MINUTE_ms)
    const act: BenchAct = {
      type: 'spinStarted',
      tubeIds: ['t1'],
      act: 'D7-20261125-3',
      g: 1300,
      spin_min: 10,
      temperature: 'room',
    }
    expect(acts(draw, act).kind).toBe('record')
    expect(draw.last()).toEqual([act])
    expect(draw.state().spun).toEqual(['t1'])
  })

  it('is written once: the same act again changes nothing', () => {
    const draw = closed()
    const act: BenchAct = { type: 'stored', tubeIds: ['t2'], where: 'fridge', act: 'A1' }
    expect(acts(draw, act).kind).toBe('record')
    const entries = draw.log().length
    expect(acts(draw, act)).toEqual({ kind: 'impossible', why: 'alreadyDone' })
    expect(draw.log().length).toBe(entries)
  })

  it('an act that was taken back is not written again by its id', () => {
    const draw = closed()
    const act: BenchAct = { type: 'bagged', tubeIds: ['t1', 't2'], bag: 'B1', act: 'A1' }
    acts(draw, act)
    expect(draw.tries({ type: 'takeBackAct', act: 'A1' }).kind).toBe('record')
    expect(wayOf(draw, 't1')?.bagged).toBeUndefined()
    expect(acts(draw, act)).toEqual({ kind: 'impossible', why: 'alreadyDone' })
    expect(draw.tries({ type: 'takeBackAct', act: 'A1' }).kind).toBe('impossible')
    expect(draw.tries({ type: 'takeBackAct', act: 'A2' }).kind).toBe('impossible')
  })

  it('a spin taken back takes its flags with it, and the tube may be spun for the first time', () => {
    const draw = closed()
    acts(draw, { type: 'spinStarted', tubeIds: ['t1'], act: 'A1' })
    expect(flagged(draw)).toEqual(['spunEarly'])
    draw.advance(1000)
    draw.tries({ type: 'takeBackAct', act: 'A1' })
    expect(draw.state().flags).toEqual([])
    expect(draw.state().spun).toEqual([])
    draw.advance(45 * MINUTE_ms)
    acts(draw, { type: 'spinStarted', tubeIds: ['t1'], act: 'A2' })
    expect(flagged(draw)).toEqual([])
  })

  it('is turned down where it cannot be: no specimen, not in the spin, already gone', () => {
    const draw = closed()
    const why = (act: BenchAct): unknown => acts(draw, act)
    expect(why({ type: 'stored', tubeIds: ['t9'], where: 'room' })).toMatchObject({
      why: 'noSpecimens',
    })
    expect(why({ type: 'spinEnded', tubeIds: ['t1'] })).toMatchObject({ why: 'notInSpin' })
    acts(draw, { type: 'courierTook', tubeIds: ['t1'], courier: 'Robin' })
    draw.advance(MINUTE_ms)
    expect(why({ type: 'spinStarted', tubeIds: ['t1'] })).toMatchObject({ why: 'withCourier' })
    expect(why({ type: 'courierTook', tubeIds: ['t1'] })).toMatchObject({ why: 'alreadyDone' })
    // The other one is still here, and an act on both is an act on that one.
    expect(why({ type: 'stored', tubeIds: ['t1', 't2'], where: 'room' })).toMatchObject({
      kind: 'record',
    })
    expect(bench(draw)).toMatchObject([{ tubeIds: ['t2'] }])
  })

  it('a draw that is open sends nothing, and its drawn tubes may be spun', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    expect(acts(draw, { type: 'courierTook', tubeIds: ['t1'] })).toMatchObject({ why: 'notClosed' })
    expect(acts(draw, { type: 'spinStarted', tubeIds: ['t1'] }).kind).toBe('record')
  })

  it('some with one courier and the rest with another: all have left with the last', () => {
    const draw = closed()
    acts(draw, { type: 'courierTook', tubeIds: ['t2'], pack: 'P1' })
    expect(draw.state().courier).toBeUndefined()
    expect(draw.step()).toBe('spin')
    draw.advance(MINUTE_ms)
    acts(draw, { type: 'courierTook', tubeIds: ['t1'], pack: 'P2' })
    expect(draw.state().courier).toBeDefined()
    expect(draw.step()).toBe('finished')
    expect([wayOf(draw, 't1')?.sent?.pack, wayOf(draw, 't2')?.sent?.pack]).toEqual(['P2', 'P1'])
  })

  it('a tube that was lost after its spin leaves nothing behind for the one in its place', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    acts(draw, { type: 'spinStarted', tubeIds: ['t1'] })
    draw.tries({ type: 'raise', kind: 'droppedTube', tubeId: 't1' })
    expect(draw.state().spun).toEqual([])
    expect(wayOf(draw, 't1')).toBeUndefined()
  })

  it('nothing of somebody else: where the identity did not match no tube goes anywhere', () => {
    const draw = drawDriver()
    toTubesDone(draw)
    draw.tries('refuseIdentity')
    expect(acts(draw, { type: 'stored', tubeIds: ['t1'], where: 'room' }).kind).toBe('impossible')
  })
})

describe('a time that is told', () => {
  it('is held against the clotting time, not the time of the entry', () => {
    const draw = closed()
    const off_ms = draw.state().tubes[0]?.off?.at_ms ?? 0
    draw.advance(60 * MINUTE_ms)
    // Gel and activator tubes stand for 30 min: laboratory reference manual page.
    const told = (minutes: number): BenchAct => ({
      type: 'spinStarted',
      tubeIds: ['t1'],
      at_ms: off_ms + minutes * MINUTE_ms,
    })
    acts(draw, told(20))
    expect(flagged(draw)).toEqual(['spunEarly'])
    expect(wayOf(draw, 't1')?.spins[0]?.started.at_ms).toBe(off_ms + 20 * MINUTE_ms)
    const other = closed()
    other.advance(60 * MINUTE_ms)
    acts(other, told(35))
    expect(flagged(other)).toEqual([])
  })

  it('before the tube was drawn, or in time to come, is put right and flagged', () => {
    const draw = closed()
    const off_ms = draw.state().tubes[1]?.off?.at_ms ?? 0
    acts(draw, { type: 'stored', tubeIds: ['t2'], where: 'room', at_ms: off_ms - 1 })
    expect(flagged(draw)).toEqual(['actTimeUncertain'])
    expect(wayOf(draw, 't2')?.stored?.at.at_ms).toBe(off_ms)
    const ahead_ms = draw.state().last.at.at_ms + 3_600_000
    acts(draw, { type: 'bagged', tubeIds: ['t2'], bag: 'B', at_ms: ahead_ms })
    expect(flagged(draw)).toEqual(['actTimeUncertain'])
    expect(wayOf(draw, 't2')?.bagged?.at.at_ms).toBe(draw.state().last.at.at_ms)
  })

  it('of a spin before the tube left may be told after it left', () => {
    const draw = closed()
    const spun_ms = draw.state().last.at.at_ms + 44 * MINUTE_ms
    draw.advance(45 * MINUTE_ms)
    acts(draw, { type: 'courierTook', tubeIds: ['t1', 't2'] })
    draw.advance(10 * MINUTE_ms)
    const act: BenchAct = { type: 'spinStarted', tubeIds: ['t1'], at_ms: spun_ms, act: 'A1' }
    expect(acts(draw, act).kind).toBe('record')
  })
})

describe('what is flagged', () => {
  const citrate = sampleTube('t1', 'citrate')
  const culture = sampleTube('t2', 'cultureAerobic', { role: 'culture' })
  const sets = {
    // A test that has an hour.
    timed: { ...twoTubes, tubes: twoTubes.tubes.map((tube) => ({ ...tube, timeLimit_min: 60 })) },
    cold: { ...samplePlan([citrate, culture]), band: { predicted_s: 30, offDuring: 't1' } },
  }
  const of = (draw: DrawDriver, ...list: readonly BenchAct[]): readonly string[] =>
    list.flatMap((act) => {
      draw.advance(1000)
      expect(acts(draw, act).kind).toBe('record')
      return flagged(draw)
    })

  it('a spin twice, a spin and a separation after two hours', () => {
    const late = closed()
    late.advance(125 * MINUTE_ms)
    expect(of(late, { type: 'spinStarted', tubeIds: ['t1'] })).toEqual(['spunLate'])
    expect(of(late, { type: 'spinEnded', tubeIds: ['t1'] })).toEqual([])
    expect(of(late, { type: 'spinStarted', tubeIds: ['t1'] })).toEqual(['spunTwice'])
    expect(of(late, { type: 'separated', tubeIds: ['t1'] })).toEqual(['separatedLate'])
  })

  it('sent after the time of a test', () => {
    const draw = closed({ plan: sets.timed })
    draw.advance(60 * MINUTE_ms)
    expect(of(draw, { type: 'courierTook', tubeIds: ['t2'] })).toEqual(['sentLate'])
  })

  it('cultures, and whole citrated blood, in the cold', () => {
    const draw = drawDriver({ plan: sets.cold })
    toTubesDone(draw)
    const where = 'fridge'
    expect(of(draw, { type: 'stored', tubeIds: ['t1'], where })).toEqual(['keptCold'])
    expect(of(draw, { type: 'stored', tubeIds: ['t2'], where })).toEqual(['keptCold'])
    expect(of(draw, { type: 'stored', tubeIds: ['t1', 't2'], where: 'room' })).toEqual([])
  })

  it('everything that only the bench can flag is tried above', () => {
    // The list is held by name, so that a new one is tried as well.
    expect([...BENCH_FLAGS].sort()).toEqual(
      ['actTimeUncertain', 'keptCold', 'sentLate', 'separatedLate', 'spunLate', 'spunTwice'].sort(),
    )
  })
})

describe('older logs', () => {
  it('a bare courier took every specimen of the draw', () => {
    const log = sampleLog({ add: [[400, { type: 'courierTook' }]] })
    const state = replay(log.entries)
    expect(checkLog(log, sha256).ok).toBe(true)
    expect(state.sent).toEqual(['t1', 't2', 't3'])
    expect(state.courier).toBeDefined()
    const ways = specimenWays(log.entries, ['t1', 't2', 't3'])
    expect([...ways.values()].every((way) => leftAt(way) !== undefined)).toBe(true)
  })

  it('events of the bench have a shape, and one that has not is a fault', () => {
    const [first] = sampleLog().entries
    const fault = (event: unknown): unknown => entryFault({ ...first, event }, 1)
    expect(fault({ type: 'spinStarted', tubeIds: ['t1'] })).toBeUndefined()
    expect(fault({ type: 'spinStarted' })).toBeDefined()
    expect(fault({ type: 'stored', tubeIds: ['t1'], where: 'pocket' })).toBeDefined()
    expect(fault({ type: 'labRejected', tubeIds: ['t1'], reason: 'XX' })).toBeDefined()
    expect(fault({ type: 'aliquoted', tubeIds: ['t1'], portions: 1.5 })).toBeDefined()
    expect(fault({ type: 'courierTook' })).toBeUndefined()
  })
})
