import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { FAULTS } from '../faults/table.ts'
import { WIDE } from '../support/wide.ts'

const ROOT = join(import.meta.dirname, '..', '..')
/** Quick ones of several families, so that the command cannot rot between two wide runs. */
const FEW = ['storageFullThenFree', 'storageClosed', 'clockBack', 'timersDie', 'choiceTwice', 'startTwice'] // prettier-ignore

/** Takes some five minutes by itself, and is left to the command. */
const LONG = ['manyDrawsInOnePage']
/** More at a time wait for each other, and what a person would see at once is seen late. */
const LANES = '3'

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

/** A machine that is busy with something else delays what is seen: what is not kept is tried once more, alone. */
async function keptOrTriedAgain(ids: readonly string[]): Promise<readonly Row[]> {
  const rows = await runCommand(['--lanes', LANES, '--only', ids.join(',')])
  expect(rows.map(({ fault }) => fault).sort()).toEqual([...ids].sort())
  const again = rows.filter(({ verdict }) => verdict !== 'kept').map(({ fault }) => fault)
  if (again.length === 0) return []
  console.log(`tried again: ${again.join(', ')}`)
  const second = await runCommand(['--lanes', '1', '--only', again.join(',')])
  expect(second).toHaveLength(again.length)
  return second.filter(({ verdict }) => verdict !== 'kept')
}

test(
  WIDE ? 'every fault is kept' : 'a few faults are kept',
  async () => {
    const all = FAULTS.map(({ id }) => id).filter((id) => !LONG.includes(id))
    if (WIDE) expect(all.length).toBeGreaterThan(40)
    expect(await keptOrTriedAgain(WIDE ? all : FEW)).toEqual([])
  },
  2_400_000,
)
