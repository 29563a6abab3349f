/**
 * `npm run bench`: runs every `tests/bench/*.bench.ts` one after the other, so that none disturbs the next, and prints
 * one JSON object. Figures hold for this machine; compare ratios within one run.
 */
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { availableParallelism, totalmem } from 'node:os'
import { basename, join } from 'node:path'

const folder = import.meta.dirname
const only = process.argv.slice(2)
const files = readdirSync(folder)
  .filter((name) => /\.bench\.ts$/.test(name))
  .filter((name) => only.length === 0 || only.some((word) => name.includes(word)))
  .sort()

const results: Record<string, unknown> = {}
for (const name of files) {
  const key = basename(name, '.bench.ts')
  process.stderr.write(`${key} ... `)
  const run = spawnSync(process.execPath, ['--import', 'tsx', join(folder, name)], {
    cwd: join(folder, '..', '..'),
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  process.stderr.write(run.status === 0 ? 'done\n' : 'failed\n')
  if (run.status === 0) results[key] = JSON.parse(run.stdout) as unknown
  else {
    results[key] = { failed: run.stderr.trim().split('\n').slice(-5) }
    process.exitCode = 1
  }
}

const machine = {
  node: process.version,
  cores: availableParallelism(),
  memory_GiB: Math.round(totalmem() / 2 ** 30),
}
console.log(JSON.stringify({ machine, ...results }, null, 2))
