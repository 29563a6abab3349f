import { execFileSync, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { errorText } from '../../src/core/basics/errorText.ts'
import { SHIPPED_MODEL } from '../../src/app/site/speechModels.ts'
import { ROOT } from './runTool.ts'
import { note, type Tally } from './tally.ts'

/** What the build of the archive calls, each with what tells that it is there. */
const TOOLS: readonly (readonly [name: string, command: string, ...args: readonly string[]])[] = [
  ['python3', 'python3', '--version'],
  ['g++', 'g++', '--version'],
  ['libfst-tools', 'fstcompile', '--help'],
  ['libfst-dev', 'g++', '-E', '-std=c++17', '-include', 'fst/fstlib.h', '-x', 'c++', '/dev/null'],
  ['gzip', 'gzip', '--version'],
]

/** Tools that this machine lacks; `fstcompile` ends with 1 after its help, and is there all the same. */
export const missingModelTools = (
  isThere = (command: string, args: readonly string[]): boolean => {
    const { error, status } = spawnSync(command, args, { stdio: 'ignore' })
    return error === undefined && (args[0] === '--help' || status === 0)
  },
): readonly string[] =>
  TOOLS.filter(([, command, ...args]) => !isThere(command, args)).map(([name]) => name)

/**
 * Builds the shipped model's archive from its weights again and compares it to the last byte; counted as skipped, and
 * said so, where it cannot be built here.
 */
export function modelArchive(tally: Tally, missing = missingModelTools()): void {
  if (missing.length > 0) {
    console.log(
      `left out, because this machine lacks ${missing.join(' and ')}: the model's archive`,
    )
    tally.skipped += 1
    return
  }
  const started = performance.now()
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-model-'))
  let isSame = false
  try {
    const built = join(folder, SHIPPED_MODEL)
    const script = join(ROOT, 'models', 'training', 'build_archive.py')
    execFileSync('python3', [script, built], { stdio: ['ignore', 'ignore', 'inherit'] })
    const [again, shipped] = [built, join(ROOT, 'models', SHIPPED_MODEL)].map(sumOf)
    isSame = again === shipped
    if (!isSame) console.log(`SHA-256 of what was built ${again}, of what is shipped ${shipped}`)
  } catch (error) {
    console.log(errorText(error))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
  const name = 'the model’s archive from its weights, byte for byte'
  note(tally, name, isSame, (performance.now() - started) / 1000)
}

const sumOf = (file: string): string =>
  createHash('sha256').update(readFileSync(file)).digest('hex')
