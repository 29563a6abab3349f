import { expect, it } from 'vitest'
import { createReadOver } from '../../../src/app/bench/readOver.ts'
import type { DayAct } from '../../../src/core/day/dayState.ts'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { sampleLog } from '../../support/sampleLog.ts'

const act = (id: string, drawId: string, takenBack = false): DayAct =>
  ({ id, takenBack, specimens: [{ drawId, tubeIds: ['t1'] }] }) as unknown as DayAct

/** How often each draw is read, with the acts of the day as the test sets them. */
function reading() {
  const read: string[] = []
  let acts: readonly DayAct[] = []
  const over = createReadOver(
    ({ drawId, entries }: DrawLog) => read.push(`${drawId} ${entries.length}`),
    { state: () => ({ acts }) },
  )
  const one = sampleLog()
  const two = { ...sampleLog(), drawId: 'D7-20261125-0004' }
  const all = (logs: readonly DrawLog[] = [one, two]): number => {
    read.length = 0
    for (const log of logs) over.of(log)
    return read.length
  }
  return { over, one, two, all, set: (now: readonly DayAct[]) => (acts = now) }
}

it('reads a draw of another device once, and again when it was written on', () => {
  const { one, two, all } = reading()
  expect([all(), all()]).toEqual([2, 0])
  expect(all([{ ...one, entries: one.entries.slice(0, 5) }, two])).toBe(1)
})

it('reads it again when something is done to its tubes, and when that is taken back', () => {
  const { one, two, all, set } = reading()
  all()
  set([act('a1', one.drawId)])
  expect([all(), all()]).toEqual([1, 0])
  // What is done to another draw changes nothing here.
  set([act('a1', one.drawId), act('a2', two.drawId)])
  expect(all()).toBe(1)
  set([act('a1', one.drawId, true), act('a2', two.drawId)])
  expect(all()).toBe(1)
})

it('keeps nothing of a patient once it is told to forget', () => {
  const { over, all } = reading()
  all()
  over.forget()
  expect(all()).toBe(2)
})
