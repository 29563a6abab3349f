import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { WIDE } from '../support/wide.ts'

const ROOT = join(import.meta.dirname, '..', '..')
/** Quick ones of several families, so that the command cannot rot between two wide runs. */
const FEW = ['storageFullThenFree', 'storageClosed', 'clockBack', 'timersDie', 'choiceTwice', 'startTwice'] // prettier-ignore

interface Row {
  readonly fault: string
  readonly verdict: string
}

function runCommand(args: readonly string[]): Promise<readonly Row[]> {
  const command = spawn(
    join(ROOT, 'node_modules', '.bin', 'tsx'),
    ['tests/faults/faults.ts', ...args],
    { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] },
  )
  let printed = ''
  command.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text))
  return new Promise((resolve, reject) => {
    command.on('error', reject)
    command.on('close', () => {
      const lines = printed.split('\n').filter((line) => line.startsWith('{'))
      resolve(lines.map((line) => JSON.parse(line) as Row))
    })
  })
}

test(
  WIDE ? 'every fault is kept' : 'a few faults are kept',
  async () => {
    const rows = await runCommand(WIDE ? [] : ['--only', FEW.join(',')])
    if (WIDE) expect(rows.length).toBeGreaterThan(40)
    else expect(rows.map(({ fault }) => fault).sort()).toEqual([...FEW].sort())
    expect(rows.filter(({ verdict }) => verdict !== 'kept')).toEqual([])
  },
  900_000,
)
