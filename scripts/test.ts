/**
 * `npm test`: every check in one run. Goes on after a failure, so that one run shows everything, and ends with
 * `N passed, N failed`, and what was left out as `N skipped`.
 *
 * Tests that wait in real time need little of the machine: they run several at a time, and everything else beside them
 * takes what they leave. `STILLHAND_WIDE=1` leaves nothing out, waits as long as the shipped limits say, and runs one
 * thing after another, but for two draws in real time, which mostly wait.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import { errorText } from '../src/core/basics/errorText.ts'
import { browserTests } from './checks/browserTests.ts'
import { coverageLines, type CoverageSummary } from './checks/coverageLines.ts'
import { runTests } from './checks/runTests.ts'
import { ROOT, runTool, type ToolOptions } from './checks/runTool.ts'
import { closingLines, emptyTally, note } from './checks/tally.ts'
import { needChromium } from './findChromium.ts'

const WIDE = process.env.STILLHAND_WIDE === '1'
/**
 * Draws at a time: one decodes speech with about a tenth of a core, and waits the rest. While it loads its model it
 * takes a whole one: four that begin in one moment hear their first phrases seconds late on two cores.
 */
const LANES = 3
/** Browser tests that work the machine, at a time; in the wide run, which has time, draws in real time as well. */
const WORKING_LANES = 2

const tally = emptyTally()

async function check(name: string, command: string, args: readonly string[], options: ToolOptions) {
  const { ok, seconds, output } = await runTool(command, args, options)
  if (!ok) console.log(output)
  note(tally, name, ok, seconds)
  return ok
}

async function toolsAndUnitTests(options: ToolOptions): Promise<void> {
  const tool = (name: string, command: string, ...args: readonly string[]) =>
    check(name, command, args, options)
  const rooms = ['src', 'scripts', 'tests']
  const shipped = ['--config', 'scripts/checks/knipShipped.json', '--include', 'files,exports']
  // Each takes one core: two at a time.
  const compiled = async (): Promise<void> => {
    await tool('types', 'tsc', '-p', '.')
    await tool('types of the core, without a browser', 'tsc', '-p', 'src/core')
    await tool('import rules', 'depcruise', ...rooms, '--config', '.dependency-cruiser.cjs')
    await tool('nothing unused', 'knip', '--config', 'scripts/checks/knip.json')
    await tool('nothing shipped for tests alone', 'knip', '--production', ...shipped)
    await tool('format', 'prettier', '--check', '--log-level', 'warn', '.')
  }
  await Promise.all([compiled(), tool('lint', 'eslint', '.')])
  await unitTests(options)
}

/** Every core is taken. What the tests ran through is told by the wide run: it costs them some 14 % more time. */
async function unitTests(options: ToolOptions): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-coverage-'))
  const workers = `--maxWorkers=${availableParallelism()}`
  const coverage = ['--coverage.enabled', `--coverage.reportsDirectory=${folder}`]
  const told = WIDE ? [...coverage, '--coverage.reporter=json-summary'] : []
  const args = ['--project', 'unit', workers, ...told]
  await runTests(tally, 'unit tests', args, { ...options, live: true })
  const file = join(folder, 'coverage-summary.json')
  if (existsSync(file)) {
    const summary = JSON.parse(readFileSync(file, 'utf8')) as CoverageSummary
    console.log(coverageLines(summary, ROOT, 10))
  }
  rmSync(folder, { recursive: true, force: true })
}

const inChromium = (name: string, files: readonly string[], options: ToolOptions) =>
  runTests(tally, name, ['--project', 'e2e', ...files], options)

/** Whether the app can be tried in Chromium; what is missing counts as a failed check. */
async function readyForChromium(): Promise<boolean> {
  if (!(await check('build', 'vite', ['build'], {}))) {
    note(tally, 'end-to-end tests (not run: the build failed)', false, 0)
    return false
  }
  try {
    process.env.CHROMIUM = needChromium()
    return true
  } catch (error) {
    console.log(errorText(error))
    note(tally, 'end-to-end tests (no Chromium)', false, 0)
    return false
  }
}

async function everything(): Promise<void> {
  if (!(await readyForChromium())) return toolsAndUnitTests({})
  const { realTime, others, left } = browserTests(WIDE)
  if (left.length > 0) console.log(`left to the wide run: ${left.join(', ')}`)
  tally.skipped += left.length
  const waiting = (options: ToolOptions) =>
    inChromium('end-to-end tests in real time', realTime, options)
  const working = (options: ToolOptions) =>
    inChromium('end-to-end tests', others, { ...options, live: true })
  if (WIDE) {
    await toolsAndUnitTests({})
    await working({})
    await waiting({ live: true, env: { STILLHAND_LANES: String(WORKING_LANES) } })
    return
  }
  const beside = waiting({ env: { STILLHAND_LANES: String(LANES) } })
  await toolsAndUnitTests({ yielding: true })
  await working({ yielding: true, env: { STILLHAND_LANES: String(WORKING_LANES) } })
  console.log(await beside)
}

await everything()
console.log(closingLines(tally))
process.exitCode = tally.failed > 0 ? 1 : 0
