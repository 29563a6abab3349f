import type { Tally } from './tally.ts'

/** The part of Vitest's JSON report that is counted. */
export interface VitestReport {
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

/**
 * Adds the tests of a report; a file that does not load counts as failed.
 * @param isTriedAgain whether a file that failed is not counted, but noted to be tried again
 * @returns what is wrong with the run as a whole, if anything is that no test tells
 */
export function countReport(
  tally: Tally,
  report: VitestReport | undefined,
  ok: boolean,
  isTriedAgain = false,
): string | undefined {
  if (!report) return 'the runner gave no report'
  if (isTriedAgain) {
    const failed = report.testResults.filter(({ status }) => status === 'failed')
    if (failed.length > 0) {
      tally.again.push(...failed.map(({ name }) => name))
      if (failed.length === report.testResults.length) return undefined
      return countReport(tally, without(report, failed), true)
    }
  }
  const broken = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  )
  const failed = report.numFailedTests + broken.length
  tally.passed += report.numPassedTests
  tally.failed += failed
  tally.skipped += report.numPendingTests + report.numTodoTests
  tally.failures.push(...broken.map(({ name, message }) => `${name}: ${message}`))
  for (const { name, assertionResults } of report.testResults) {
    for (const test of assertionResults) {
      if (test.status === 'failed') tally.failures.push(`${name}: ${test.fullName}`)
    }
  }
  if ((!ok || !report.success) && failed === 0) return 'an error outside a test'
  if (report.numPassedTests + failed === 0) return 'none found'
  return undefined
}

/** The report of a run in which these files were not. */
function without(report: VitestReport, files: VitestReport['testResults']): VitestReport {
  const tests = files.flatMap(({ assertionResults }) => assertionResults)
  const count = (...states: readonly string[]): number =>
    tests.filter(({ status }) => states.includes(status)).length
  return {
    success: true,
    numPassedTests: report.numPassedTests - count('passed'),
    numFailedTests: report.numFailedTests - count('failed'),
    numPendingTests: report.numPendingTests - count('pending', 'skipped'),
    numTodoTests: report.numTodoTests - count('todo'),
    testResults: report.testResults.filter((file) => !files.includes(file)),
  }
}
