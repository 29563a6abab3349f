import fc from 'fast-check'
import { expect, it } from 'vitest'
import { devicePrefixFrom, nextDrawId } from '../../../src/app/draw/drawIds.ts'
import { specimenNumber } from '../../../src/core/protocol/specimenNumber.ts'

const stored = (drawId: string) => ({
  drawId,
  opened_ms: 0,
  closed: true,
  patientName: '',
  invented: true,
})

it('counts on from the highest draw of the day and this device', () => {
  const draws = [
    'QK27-20261125-0001',
    'QK27-20261125-0007',
    'QK27-20261124-0031',
    'ZZ99-20261125-0050',
  ].map(stored)
  expect(nextDrawId('QK27', '2026-11-25', draws)).toBe('QK27-20261125-0008')
  expect(nextDrawId('QK27', '2026-11-26', draws)).toBe('QK27-20261126-0001')
})

it('never gives an id that is stored', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 9999 }), { maxLength: 20 }), (counts) => {
      const draws = counts.map((n) => stored(`AB22-20261125-${String(n).padStart(4, '0')}`))
      expect(draws.map(({ drawId }) => drawId)).not.toContain(
        nextDrawId('AB22', '2026-11-25', draws),
      )
    }),
  )
})

it('makes prefixes of four characters that Code 128 and the eye can take', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 4, maxLength: 4 }), (bytes) => {
      expect(devicePrefixFrom(bytes)).toMatch(/^[A-HJ-NP-Z]{2}[2-9]{2}$/)
    }),
  )
})

it('keeps specimen numbers of different devices, draws and tubes apart', () => {
  const numbers = ['AB22', 'AB23'].flatMap((prefix) =>
    ['20261125-0001', '20261125-0002', '20261126-0001'].flatMap((draw) =>
      ['t1', 't2', 't12'].map((tube) => specimenNumber(`${prefix}-${draw}`, tube)),
    ),
  )
  expect(new Set(numbers).size).toBe(numbers.length)
})
