/**
 * `npm test`: every check in one run. Each tool counts as one check, each test as one.
 * Goes on after a failure, so that one run shows everything, and ends with `N passed, N failed`.
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { needChromium } from './findChromium.ts'
import { errorText } from '../src/core/basics/errorText.ts'

interface Count {
  passed: number
  failed: number
  skipped: number
}

const root = join(import.meta.dirname, '..')
const count: Count = { passed: 0, failed: 0, skipped: 0 }
const failures: string[] = []

function note(name: string, ok: boolean, seconds: number): void {
  if (ok) count.passed++
  else {
    count.failed++
    failures.push(name)
  }
  console.log(`${ok ? 'ok    ' : 'FAILED'} ${name} (${seconds.toFixed(1)} s)`)
}

function run(command: string, args: readonly string[], show: 'failure' | 'always') {
  const started = performance.now()
  const result = spawnSync(join(root, 'node_modules', '.bin', command), args, {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 256 * 1024 * 1024,
    stdio: [
      'ignore',
      ...(show === 'always' ? (['inherit', 'inherit'] as const) : (['pipe', 'pipe'] as const)),
    ],
  })
  const ok = result.status === 0
  if (!ok && show === 'failure') {
    console.log([result.stdout, result.stderr, result.error?.message].filter(Boolean).join('\n'))
  }
  return { ok, seconds: (performance.now() - started) / 1000 }
}

function check(name: string, command: string, ...args: string[]): boolean {
  const { ok, seconds } = run(command, args, 'failure')
  note(name, ok, seconds)
  return ok
}

interface VitestReport {
  readonly success: boolean
  readonly numPassedTests: number
  readonly numFailedTests: number
  readonly numPendingTests: number
  readonly numTodoTests: number
  readonly testResults: readonly {
    readonly name: string
    readonly status: string
    readonly message: string
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[]
  }[]
}

/** Runs one of Vitest's projects and adds its tests to the count; a file that does not load counts as failed. */
function tests(project: string): void {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-test-'))
  const file = join(folder, 'report.json')
  console.log(`\n${project} tests`)
  const args = ['run', '--project', project, '--reporter=default', '--reporter=json']
  const { ok, seconds } = run('vitest', [...args, `--outputFile.json=${file}`], 'always')
  let report: VitestReport | undefined
  try {
    report = JSON.parse(readFileSync(file, 'utf8')) as VitestReport
  } catch {
    // Vitest stopped before it could report.
  }
  rmSync(folder, { recursive: true, force: true })
  if (!report) {
    note(`${project} tests (the runner gave no report)`, false, seconds)
    return
  }
  const broken = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  )
  count.passed += report.numPassedTests
  count.failed += report.numFailedTests + broken.length
  count.skipped += report.numPendingTests + report.numTodoTests
  for (const { name, message } of broken) failures.push(`${name}: ${message}`)
  for (const { name, assertionResults } of report.testResults) {
    for (const test of assertionResults) {
      if (test.status === 'failed') failures.push(`${name}: ${test.fullName}`)
    }
  }
  const counted = report.numFailedTests + broken.length
  if ((!ok || !report.success) && counted === 0)
    note(`${project} tests (an error outside a test)`, false, seconds)
  if (report.numPassedTests + counted === 0) note(`${project} tests (none found)`, false, seconds)
}

function endToEnd(built: boolean): void {
  if (!built) {
    note('end-to-end tests (not run: the build failed)', false, 0)
    return
  }
  try {
    process.env.CHROMIUM = needChromium()
  } catch (error) {
    console.log(errorText(error))
    note('end-to-end tests (no Chromium)', false, 0)
    return
  }
  tests('e2e')
}

check('format', 'prettier', '--check', '--log-level', 'warn', '.')
check('lint', 'eslint', '.')
check('types', 'tsc', '-p', '.')
check('types of the core, without a browser', 'tsc', '-p', 'src/core')
check('import rules', 'depcruise', 'src', 'scripts', 'tests', '--config', '.dependency-cruiser.cjs')
const built = check('build', 'vite', 'build')
tests('unit')
endToEnd(built)

if (failures.length > 0) console.log(`\nFailed:\n${failures.map((name) => `  ${name}`).join('\n')}`)
const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : ''
console.log(`\n${count.passed} passed, ${count.failed} failed${skipped}`)
process.exitCode = count.failed > 0 ? 1 : 0
