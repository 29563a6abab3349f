/**
 * How long it takes to bring a draw back from its log: reading the text, checking the chain, and folding the entries
 * into the state. Medians of 200 runs over an invented three-tube draw, and the ratio to reading the text alone.
 */
import { performance } from 'node:perf_hooks'
import { checkChain } from '../../src/core/log/checkChain.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { replay } from '../../src/core/protocol/evolve.ts'
import { sampleLog, sha256 } from '../support/sampleLog.ts'

const RUNS = 200
const text = JSON.stringify(sampleLog())
const { entries } = JSON.parse(text) as DrawLog

function median_ms(work: () => unknown): number {
  const times = Array.from({ length: RUNS }, () => {
    const start = performance.now()
    work()
    return performance.now() - start
  }).sort((a, b) => a - b)
  return times[RUNS / 2] ?? NaN
}

const round = (value: number): number => Math.round(value * 1000) / 1000
const read_ms = median_ms(() => JSON.parse(text) as DrawLog)
const chain_ms = median_ms(() => checkChain(entries, sha256))
const fold_ms = median_ms(() => replay(entries))
console.log(
  JSON.stringify({
    entries: entries.length,
    text_kB: round(text.length / 1000),
    read_ms: round(read_ms),
    checkChain_ms: round(chain_ms),
    fold_ms: round(fold_ms),
    foldToRead: round(fold_ms / read_ms),
  }),
)
