import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { browserTests } from '../../scripts/checks/browserTests.ts'
import { countFinished } from '../../scripts/checks/countFinished.ts'
import { coverageLines } from '../../scripts/checks/coverageLines.ts'
import { ROOT, runTool } from '../../scripts/checks/runTool.ts'
import { closingLines, emptyTally } from '../../scripts/checks/tally.ts'
import { countReport, type VitestReport } from '../../scripts/checks/vitestReport.ts'

const file = (name: string, status: string, ...tests: readonly string[]) => ({
  name,
  status,
  message: status === 'failed' ? 'It does not load.' : '',
  assertionResults: tests.map((each, i) => ({ status: each, fullName: `test ${i}` })),
})
const report = (change: Partial<VitestReport> = {}): VitestReport => ({
  success: true,
  numPassedTests: 2,
  numFailedTests: 0,
  numPendingTests: 1,
  numTodoTests: 0,
  testResults: [file('a.test.ts', 'passed', 'passed', 'passed', 'skipped')],
  ...change,
})

describe('a report of the test runner', () => {
  it('is counted test by test, with what was left out', () => {
    const tally = emptyTally()
    expect(countReport(tally, report(), true)).toBeUndefined()
    expect(closingLines(tally)).toBe('\n2 passed, 0 failed, 1 skipped')
  })

  it('names what failed, and counts a file that does not load as one failure', () => {
    const tally = emptyTally()
    const testResults = [file('a.test.ts', 'failed', 'passed', 'failed'), file('b', 'failed')]
    const wrong = countReport(
      tally,
      report({ success: false, numPassedTests: 1, numFailedTests: 1, testResults }),
      false,
    )
    expect(wrong).toBeUndefined()
    expect(tally).toMatchObject({ passed: 1, failed: 2 })
    expect(tally.failures).toEqual(['b: It does not load.', 'a.test.ts: test 1'])
    expect(closingLines(tally)).toMatch(/^\nFailed:\n {2}b: .*\n {2}a\.test\.ts.*\n\n1 passed/)
  })

  it.each([
    ['is missing', undefined, true],
    ['is good but the runner failed', report(), false],
    ['holds no test', report({ numPassedTests: 0, testResults: [] }), true],
  ])('is a failure of its own when it %s', (_when, given, ok) => {
    expect(countReport(emptyTally(), given, ok)).toEqual(expect.any(String))
  })
})

describe('a file that fails beside other work', () => {
  const bad = () =>
    report({
      success: false,
      numPassedTests: 3,
      numFailedTests: 1,
      testResults: [
        file('a.ts', 'passed', 'passed', 'passed'),
        file('b.ts', 'failed', 'passed', 'failed'),
      ],
    })

  it('is noted to be tried again, and the others are counted', () => {
    const tally = emptyTally()
    expect(countReport(tally, { ...bad(), numPendingTests: 0 }, false, true)).toBeUndefined()
    expect(tally).toMatchObject({ passed: 2, failed: 0, skipped: 0, again: ['b.ts'] })
    expect(closingLines(tally)).toContain('tried again alone: b.ts')
  })

  it('counts as failed when it fails alone as well', () => {
    const tally = emptyTally()
    countReport(tally, bad(), false, true)
    countReport(tally, bad(), false)
    expect(tally.failures).toEqual(['b.ts: test 1'])
  })

  it('is also told when all of them are to be tried again', () => {
    const tally = emptyTally()
    const testResults = [file('b.ts', 'failed', 'failed')]
    const none = { success: false, numPassedTests: 0, numFailedTests: 1, numPendingTests: 0 }
    expect(countReport(tally, report({ ...none, testResults }), false, true)).toBeUndefined()
    expect(tally).toMatchObject({ passed: 0, failed: 0, again: ['b.ts'] })
  })
})

describe('the coverage', () => {
  const lines = (total: number, covered: number) => ({ lines: { total, covered } })

  it('is told as a whole, and where most is left', () => {
    const summary = {
      total: lines(200, 150),
      '/r/src/a.ts': lines(50, 40),
      '/r/src/b.ts': lines(100, 60),
      '/r/src/c.ts': lines(50, 50),
    }
    expect(coverageLines(summary, '/r', 5).split('\n')).toEqual([
      'Unit tests ran 150 of 200 lines (75.0 %). Most left:',
      '    40  src/b.ts',
      '    10  src/a.ts',
    ])
    expect(coverageLines(summary, '/r', 1)).not.toContain('src/a.ts')
  })
})

describe('the tests in Chromium', () => {
  it('are each in one of the two runs, and are there', () => {
    const { heard, waiting, others, left } = browserTests(true)
    const all = [...heard, ...waiting, ...others]
    expect(left).toEqual([])
    expect(new Set(all).size).toBe(all.length)
    expect(all.filter((path) => !existsSync(join(ROOT, path)))).toEqual([])
    expect(others).toContain('tests/e2e/screens.e2e.ts')
    const narrow = browserTests(false)
    const run = [...narrow.heard, ...narrow.waiting, ...narrow.others]
    expect([...run, ...narrow.left].sort()).toEqual(all.sort())
  })
})

describe('a tool', () => {
  it('that cannot be started has failed', async () => {
    const { ok, output } = await runTool('no-such-tool', [])
    expect(ok).toBe(false)
    expect(output).toContain('no-such-tool')
  })

  it('that runs gives what it printed, also beside other work', async () => {
    const { ok, output } = await runTool('prettier', ['--version'], { yielding: 'wholly' })
    expect(ok).toBe(true)
    expect(output.trim()).toMatch(/^\d+\.\d+\.\d+$/)
  })
})

describe('a run that is ended because its time is over', () => {
  const line = (file: string, state: string, test?: string) => JSON.stringify({ file, state, test })

  it('counts what came to its end, names what failed, and skips the files that did not', () => {
    const tally = emptyTally()
    const lines = [
      line('a.ts', 'passed', 'one'),
      line('a.ts', 'failed', 'two'),
      line('a.ts', 'failed'),
      line('b.ts', 'passed', 'three'),
      line('c.ts', 'failed'),
    ]
    const left = countFinished(tally, `${lines.join('\n')}\n`, ['a.ts', 'b.ts', 'c.ts', 'd.ts'])
    expect(left).toEqual(['b.ts', 'd.ts'])
    expect(tally).toMatchObject({ passed: 2, failed: 2, skipped: 2 })
    expect(tally.failures).toEqual(['a.ts: two', 'c.ts: an error outside a test'])
  })

  it('notes what failed before its end to be tried again', () => {
    const tally = emptyTally()
    const lines = [
      line('a.ts', 'failed', 'one'),
      line('a.ts', 'failed'),
      line('b.ts', 'passed', 'two'),
    ]
    const left = countFinished(tally, `${lines.join('\n')}\n`, ['a.ts', 'b.ts', 'c.ts'], true)
    expect(left).toEqual(['b.ts', 'c.ts'])
    expect(tally).toMatchObject({ passed: 1, failed: 0, skipped: 2, again: ['a.ts'] })
  })

  it('ends its tool with all that it has started', async () => {
    const { ok, isEnded } = await runTool(
      'tsx',
      ['-e', "require('node:child_process').spawnSync('sleep', ['600'])"],
      { until_ms: Date.now() + 2000 },
    )
    expect([ok, isEnded]).toEqual([false, true])
  })
})
