/**
 * `npm test`: every check in one run. Goes on after a failure, so that one run shows everything, and ends with
 * `N passed, N failed`, and what was left out as `N skipped`.
 *
 * Tests that wait in real time need little of the machine: they run several at a time, and everything else beside them
 * takes what they leave. `STILLHAND_WIDE=1` leaves nothing out and waits as long as the shipped limits say: first the
 * tools, then what is heard beside the unit tests, then what waits for clocks and other pages, and the faults, both
 * beside what works the machine. What failed in Chromium beside other work is tried once more when all that is over,
 * alone: that counts, and which it was is said.
 */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import { errorText } from '../src/core/basics/errorText.ts'
import { browserTests, type BrowserTests } from './checks/browserTests.ts'
import { coverageLines, type CoverageSummary } from './checks/coverageLines.ts'
import { modelArchive } from './checks/modelArchive.ts'
import { runTests } from './checks/runTests.ts'
import { ROOT, runTool, type ToolOptions } from './checks/runTool.ts'
import { serverTests } from './checks/serverTests.ts'
import { closingLines, emptyTally, note } from './checks/tally.ts'
import { needChromium } from './findChromium.ts'

const WIDE = process.env.STILLHAND_WIDE === '1'
/**
 * Draws at a time: one decodes speech with about a tenth of a core, and waits the rest. While it loads its model it
 * takes a whole one: four that begin in one moment hear their first phrases seconds late on two cores.
 */
const LANES = 3
/** Browser tests that work the machine, at a time. */
const WORKING_LANES = 2
/** In the wide run the draws take an hour in turn; more than two at once hear too late. */
const WIDE_LANES = 2
/** Rooms of tests that touch neither page nor disk. */
const PURE = ['tests/core', 'tests/data', 'tests/property']
/** Runs three devices at a time by itself. */
const FAULTS = 'tests/e2e/faults.e2e.ts'

/**
 * Where a run may take only so long, what drives Chromium is ended then, and what was left out is said. The faults that
 * are tried once more may take some minutes beyond.
 */
const UNTIL_ms = Date.now() + Number(process.env.STILLHAND_MOST_min ?? Infinity) * 60_000

const tally = emptyTally()

async function check(name: string, command: string, args: readonly string[], options: ToolOptions) {
  const { ok, seconds, output } = await runTool(command, args, options)
  if (!ok) console.log(output)
  note(tally, name, ok, seconds)
  return ok
}

async function tools(options: ToolOptions): Promise<void> {
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
}

/** Every core is taken. What they ran through is told with `STILLHAND_COVERAGE=1`: it costs some 14 % more time. */
async function unitTests(options: ToolOptions): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-coverage-'))
  const workers = `--maxWorkers=${availableParallelism()}`
  const coverage = ['--coverage.enabled', `--coverage.reportsDirectory=${folder}`]
  const told =
    process.env.STILLHAND_COVERAGE === '1' ? [...coverage, '--coverage.reporter=json-summary'] : []
  const run = (name: string, args: readonly string[]) =>
    runTests(tally, name, ['--project', 'unit', workers, ...args], { ...options, live: true })
  if (told.length > 0) await run('unit tests', told)
  else {
    // What is pure leaves nothing behind: without a world of its own for each file it takes a quarter less.
    await run('unit tests of what is pure', ['--no-isolate', ...PURE])
    const rooms = readdirSync(join(ROOT, 'tests')).map((room) => `tests/${room}`)
    await run(
      'unit tests',
      rooms.filter((room) => !PURE.includes(room)),
    )
  }
  const file = join(folder, 'coverage-summary.json')
  if (existsSync(file)) {
    const summary = JSON.parse(readFileSync(file, 'utf8')) as CoverageSummary
    console.log(coverageLines(summary, ROOT, 10))
  }
  rmSync(folder, { recursive: true, force: true })
}

const inChromium = (name: string, files: readonly string[], options: ToolOptions) =>
  runTests(tally, name, ['--project', 'e2e', ...files], {
    ...options,
    until_ms: UNTIL_ms,
    isTriedAgain: true,
  })

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
  if (!(await readyForChromium())) {
    await tools({})
    return unitTests({})
  }
  const tests = browserTests(WIDE)
  if (tests.left.length > 0) console.log(`left to the wide run: ${tests.left.join(', ')}`)
  tally.skipped += tests.left.length
  await (WIDE ? wide(tests) : narrow(tests))
  await againAlone()
}

const inLanes = (files: readonly string[], lanes: number) =>
  inChromium('end-to-end tests in real time', files, { env: { STILLHAND_LANES: `${lanes}` } })

const working = (files: readonly string[]) =>
  inChromium('end-to-end tests', files, {
    live: true,
    yielding: 'partly',
    env: { STILLHAND_LANES: `${WORKING_LANES}` },
  })

async function narrow({ heard, waiting, others }: BrowserTests): Promise<void> {
  const beside = inLanes([...heard, ...waiting], LANES)
  await tools({ yielding: 'wholly' })
  await unitTests({ yielding: 'wholly' })
  await working(others)
  console.log(await beside)
}

async function wide({ heard, waiting, others }: BrowserTests): Promise<void> {
  // Beside draws that are heard a compiler takes ten times as long, and they suffer by it.
  await tools({})
  const draws = inLanes(heard, WIDE_LANES)
  await unitTests({ yielding: 'wholly' })
  console.log(await draws)
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-faults-'))
  const notKept = join(folder, 'notKept')
  const faults = inLanes(waiting, WIDE_LANES).then((told) => {
    console.log(told)
    return inChromium('faults', [FAULTS], { env: { STILLHAND_FAULTS_LEFT: notKept } })
  })
  await serverTests(tally)
  modelArchive(tally)
  await working(withoutFaults(others))
  console.log(await faults)
  // What a person would see within two seconds is seen later beside other work.
  const ids = existsSync(notKept) ? readFileSync(notKept, 'utf8') : ''
  rmSync(folder, { recursive: true })
  if (ids === '') return
  const env = { STILLHAND_FAULTS: ids }
  console.log(await runTests(tally, 'faults, alone', ['--project', 'e2e', FAULTS], { env }))
}

/** Alone on the machine, one at a time; what fails now has failed. */
async function againAlone(): Promise<void> {
  if (tally.again.length === 0) return
  console.log(`tried again alone: ${tally.again.join(', ')}`)
  await runTests(tally, 'again, alone', ['--project', 'e2e', ...tally.again], { live: true })
}

/** Every other file. */
function withoutFaults(files: readonly string[]): readonly string[] {
  if (!files.includes(FAULTS)) throw new Error(`There is no ${FAULTS}.`)
  return files.filter((file) => file !== FAULTS)
}

await everything()
console.log(closingLines(tally))
process.exitCode = tally.failed > 0 ? 1 : 0
