import { describe, expect, it } from 'vitest'
import { decide } from '../../../src/core/protocol/decide.ts'
import { replay } from '../../../src/core/protocol/evolve.ts'
import { openCommands } from '../../../src/core/protocol/openCommands.ts'
import type { Command } from '../../../src/core/protocol/commands.ts'
import type { DrawSitting } from '../../../src/core/order/sitting.ts'
import { sampleLog, SAMPLE_DRAW_ID, sampleOpening, stampAt } from '../../support/sampleLog.ts'

const point = (number: number, after_min?: number) => ({
  ...{ code: 'ogtt75', name: 'Glucose tolerance', number, of: 3, point: `point ${number}` },
  tests: ['test-citrate'],
  ...(after_min !== undefined && { from: 'drinkFinished' as const, after_min }),
})
const sitting: DrawSitting = {
  series: SAMPLE_DRAW_ID,
  parts: [point(1)],
  later: [point(2, 60), point(3, 120)],
}
const entries = sampleLog({ opening: { sitting } }).entries
const until = (type: string) =>
  replay(entries.slice(0, entries.findIndex(({ event }) => event.type === type) + 1))
const closed = replay(entries)
const now = stampAt(500)
const told = (command: Command, s = closed) => decide(s, command, now)

describe('what is told of a series in the record of a draw', () => {
  it('takes the moment its samples are counted from, once, and no other', () => {
    expect(told({ type: 'drinkFinished' })).toEqual({
      kind: 'record',
      events: [{ type: 'momentNoted', moment: 'drinkFinished' }],
    })
    expect(told({ type: 'doseGiven' })).toEqual({ kind: 'impossible', why: 'nothingOpen' })
    const again = { ...closed, moments: [{ moment: 'drinkFinished', at_ms: 1 } as const] }
    expect(told({ type: 'drinkFinished' }, again)).toEqual({
      kind: 'impossible',
      why: 'alreadyDone',
    })
  })

  it('takes a correction at a time that has been, with its reason', () => {
    const at_ms = now.at_ms - 60_000
    const command = { type: 'noteMoment', moment: 'drinkFinished', at_ms, why: ' slip ' } as const
    expect(told(command)).toEqual({
      kind: 'record',
      events: [{ type: 'momentNoted', moment: 'drinkFinished', at_ms, why: 'slip' }],
    })
    const ahead = { ...command, at_ms: now.at_ms + 600_000 }
    expect(told(ahead)).toEqual({ kind: 'impossible', why: 'notYet' })
    expect(told({ ...command, at_ms: NaN })).toEqual({ kind: 'impossible', why: 'notYet' })
    expect(told({ ...command, moment: 'infusionEnded' })).toMatchObject({ kind: 'impossible' })
  })

  it('leaves out only its own sittings, each once, with a reason', () => {
    const out = (numbers: readonly number[], why = 'vomited', s = closed) =>
      told(
        { type: 'leaveOut', sittings: numbers.map((number) => ({ code: 'ogtt75', number })), why },
        s,
      )
    expect(out([2, 3, 9])).toEqual({
      kind: 'record',
      events: [
        {
          type: 'sittingsLeftOut',
          sittings: [
            { code: 'ogtt75', number: 2 },
            { code: 'ogtt75', number: 3 },
          ],
          why: 'vomited',
        },
      ],
    })
    expect(out([2], ' ')).toEqual({ kind: 'impossible', why: 'notDecided' })
    expect(out([9])).toEqual({ kind: 'impossible', why: 'alreadyDone' })
    expect(out([2], 'x', { ...closed, leftOut: ['ogtt75/2'] })).toMatchObject({
      why: 'alreadyDone',
    })
  })

  it('offers the moment once the needle is out, and to no draw without a series', () => {
    const offered = (s: typeof closed): readonly string[] => openCommands(s, now).step
    expect(offered(until('identifierChecked'))).not.toContain('drinkFinished')
    expect(offered(until('needleIn'))).not.toContain('drinkFinished')
    expect(offered(until('bandageOn'))).toContain('drinkFinished')
    const plain = replay(sampleLog({ opening: sampleOpening() }).entries)
    expect(offered(plain)).not.toContain('drinkFinished')
    expect(told({ type: 'drinkFinished' }, plain)).toMatchObject({ kind: 'impossible' })
  })
})
