import { expect, it } from 'vitest'
import { benchTotals } from '../../../src/core/bench/benchTotals.ts'
import { BUSY_BENCH } from '../../support/benchView.ts'

const totals = benchTotals(BUSY_BENCH.rows)

it('counts every specimen once, at its step', () => {
  const sum = totals.reduce((n, each) => n + each.n, 0)
  expect(sum).toBe(BUSY_BENCH.rows.length)
  const spinning = totals.find(({ step }) => step === 'spinning')
  // Started at 88 min for 15 min, seen at 95.
  expect(spinning).toMatchObject({ n: 2, due: 0, over: 0 })
  expect(spinning?.next_ms).toBe(BUSY_BENCH.now_ms + 8 * 60_000)
})

it('has what is due first on top, and counts what is over', () => {
  expect(totals[0]).toMatchObject({ step: 'spin', due: 16, over: 7 })
  const steps = totals.map(({ step }) => BUSY_BENCH.rows.findIndex((row) => row.step === step))
  expect(steps).toEqual([...steps].sort((a, b) => a - b))
})

it('is empty where nothing is', () => {
  expect(benchTotals([])).toEqual([])
})
