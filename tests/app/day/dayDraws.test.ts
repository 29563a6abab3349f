import { expect, it } from 'vitest'
import { createDayDraws } from '../../../src/app/day/dayDraws.ts'
import type { StoredDraw } from '../../../src/ports/logStore.ts'
import { sampleLog } from '../../support/sampleLog.ts'

const log = sampleLog()
const { drawId } = log

/** The list's line of one draw, and how often its log was read. */
function reader() {
  let read_n = 0
  const draws = createDayDraws({
    load: () => {
      read_n++
      return Promise.resolve(log)
    },
  })
  const look = async (change: Partial<StoredDraw> = {}): Promise<number> => {
    const line = { drawId, opened_ms: 1000, entries: 5, closed: false, ...change } as StoredDraw
    await draws.read([line], () => undefined)
    return read_n
  }
  return { draws, look }
}

it('reads a log once, and again when it has grown or was closed', async () => {
  const { look } = reader()
  expect([await look(), await look()]).toEqual([1, 1])
  expect(await look({ entries: 6 })).toBe(2)
  expect(await look({ entries: 6, closed: true })).toBe(3)
})

it('reads again where a restored hub has another draw of as many entries under that number', async () => {
  const { look } = reader()
  expect([await look(), await look({ opened_ms: 2000 })]).toEqual([1, 2])
})

it('knows nothing any more of what it was told to forget', async () => {
  const { draws, look } = reader()
  await look()
  draws.forget()
  expect(await look()).toBe(2)
})
