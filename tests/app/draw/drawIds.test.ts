import fc from 'fast-check'
import { expect, it } from 'vitest'
import { createMemoryLogStore } from '../../../src/adapters/storage/memory.ts'
import { createSimulatedClock } from '../../../src/adapters/time/simulatedClock.ts'
import { devicePrefixFrom, freshDrawId } from '../../../src/app/draw/drawIds.ts'
import { code128, QUIET_MODULES } from '../../../src/app/record/code128.ts'
import { isDevicePrefix, isPrintableId, readDrawId } from '../../../src/core/protocol/drawId.ts'
import { specimenNumber } from '../../../src/core/protocol/specimenNumber.ts'
import { logOf, sampleOpening, sha256 } from '../../support/sampleLog.ts'

async function storeWith(drawIds: readonly string[]) {
  const store = createMemoryLogStore(sha256)
  for (const drawId of drawIds) await store.adopt(logOf([[0, sampleOpening({ drawId })]]), '')
  return store
}
const noLot = (): number => {
  throw new Error('No lot was to be drawn.')
}
const DEPS = {
  clock: createSimulatedClock({ boot: 'a', mono_ms: 0, wall_ms: 0, offset_min: 0 }),
  onNoAnswer: () => {
    throw new Error('The disk has answered.')
  },
}
const refusing = { reserveNumber: () => Promise.reject(new Error('The disk is full.')) }

it('counts on from the highest draw of the day and this device', async () => {
  const logStore = await storeWith([
    'QK27-20261125-0001',
    'QK27-20261125-0007',
    'QK27-20261124-0031',
    'ZZ99-20261125-0050',
  ])
  const deps = { ...DEPS, logStore, drawLot: noLot }
  expect(await freshDrawId(deps, 'QK27', '2026-11-25')).toBe('QK27-20261125-0008')
  expect(await freshDrawId(deps, 'QK27', '2026-11-26')).toBe('QK27-20261126-0001')
})

it('never gives an id that is stored', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.uniqueArray(fc.integer({ min: 1, max: 9999 }), { maxLength: 20 }),
      async (counts) => {
        const ids = counts.map((n) => `AB22-20261125-${String(n).padStart(4, '0')}`)
        const deps = { ...DEPS, logStore: await storeWith(ids), drawLot: () => 7 }
        expect(ids).not.toContain(await freshDrawId(deps, 'AB22', '2026-11-25'))
      },
    ),
  )
})

it('gives a number once, also to a draw that could not be opened after it', async () => {
  const deps = { ...DEPS, logStore: await storeWith([]), drawLot: noLot }
  const ids = [1, 2, 3].map(() => freshDrawId(deps, 'QK27', '2026-11-25'))
  expect(new Set(await Promise.all(ids)).size).toBe(3)
})

it('draws by lot when nothing can be stored, longer than any number that was counted', async () => {
  const lots = [0, 12, 4294967295]
  const ids = await Promise.all(
    lots.map((lot) =>
      freshDrawId({ ...DEPS, logStore: refusing, drawLot: () => lot }, 'QK27', '2026-11-25'),
    ),
  )
  expect(ids).toEqual([
    'QK27-20261125-00000000',
    'QK27-20261125-00000012',
    'QK27-20261125-94967295',
  ])
})

it('waits for no disk that does not answer: it says so and draws by lot', async () => {
  let told = 0
  const logStore = { reserveNumber: () => new Promise<number>(() => undefined) }
  const deps = { ...DEPS, logStore, drawLot: () => 7, onNoAnswer: () => void told++ }
  const id = freshDrawId(deps, 'QK27', '2026-11-25')
  DEPS.clock.advance(799)
  expect(told).toBe(0)
  DEPS.clock.advance(1)
  expect(await id).toBe('QK27-20261125-00000007')
  expect(told).toBe(1)
})

it('draws by lot when the numbers of a day are used up', async () => {
  const deps = { ...DEPS, logStore: await storeWith(['QK27-20261125-9999']), drawLot: () => 5 }
  expect(await freshDrawId(deps, 'QK27', '2026-11-25')).toBe('QK27-20261125-00000005')
})

it('gives only ids that Code 128 can hold, on bars that fit a label of 2 inches', async () => {
  // 2 in are 50.8 mm: 203 bars of 0.25 mm (10 mil), which hand scanners read; common practice, no source.
  const most_modules = Math.floor(50.8 / 0.25)
  await fc.assert(
    fc.asyncProperty(
      fc.stringMatching(/^[A-Z0-9]{2,4}$/),
      fc.integer({ min: 0, max: 2 ** 32 - 1 }),
      fc.boolean(),
      async (prefix, lot, broken) => {
        const logStore = broken ? refusing : { reserveNumber: async () => (lot % 9999) + 1 }
        const id = await freshDrawId(
          { ...DEPS, logStore, drawLot: () => lot },
          prefix,
          '2026-11-25',
        )
        expect(isPrintableId(id)).toBe(true)
        expect(readDrawId(id)?.prefix).toBe(prefix)
        const { modules } = code128(specimenNumber(id, 't12'))
        expect(modules + 2 * QUIET_MODULES).toBeLessThanOrEqual(most_modules)
      },
    ),
  )
})

it('takes two to four capital letters and digits for a prefix, and nothing else', () => {
  expect(['D7', 'QK27', '77'].every(isDevicePrefix)).toBe(true)
  expect(['', 'D', 'ÄB', 'ab', 'D-7', 'QK271', 'D7\n'].some(isDevicePrefix)).toBe(false)
})

it.each(['D7-20261125--Infinity', 'D7-20261125-Infinity', 'D7-20261125-9007199254740992', 'é'])(
  'reads no number in %s',
  (id) => {
    expect(readDrawId(id)).toBeUndefined()
  },
)

it('makes prefixes of four characters that Code 128 and the eye can take', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 4, maxLength: 4 }), (bytes) => {
      expect(devicePrefixFrom(bytes)).toMatch(/^[A-HJ-NP-Z]{2}[2-9]{2}$/)
    }),
  )
})

it('keeps specimen numbers of different devices, draws and tubes apart', () => {
  const numbers = ['AB22', 'AB23', 'AB', 'AB2'].flatMap((prefix) =>
    ['20261125-0001', '20261125-0002', '20261126-0001', '20261125-00010002'].flatMap((draw) =>
      ['t1', 't2', 't12'].map((tube) => specimenNumber(`${prefix}-${draw}`, tube)),
    ),
  )
  expect(new Set(numbers).size).toBe(numbers.length)
})
