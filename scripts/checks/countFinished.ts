import type { Finished } from './finishedReporter.ts'
import type { Tally } from './tally.ts'

/**
 * Adds what a run had come to when it was ended because its time was over. What failed has failed; a file that was not
 * gone through to its end counts as one that was skipped.
 * @param lines of JSON, see `Finished`
 * @param files that were to be run
 * @param isTriedAgain whether a file in which something failed is not counted, but noted to be tried again
 * @returns those that were not gone through to their end
 */
export function countFinished(
  tally: Tally,
  lines: string,
  files: readonly string[],
  isTriedAgain = false,
): readonly string[] {
  const all = lines
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Finished)
  const again = new Set(
    all.filter(({ state }) => isTriedAgain && state === 'failed').map(({ file }) => file),
  )
  tally.again.push(...again)
  const finished = all.filter(({ file }) => !again.has(file))
  const ended = new Set(finished.filter(({ test }) => test === undefined).map(({ file }) => file))
  const failedIn = new Set<string>()
  for (const { file, test, state } of finished) {
    if (test === undefined) continue
    if (state === 'passed') tally.passed++
    else if (state === 'skipped') tally.skipped++
    else {
      failedIn.add(file)
      tally.failed++
      tally.failures.push(`${file}: ${test}`)
    }
  }
  for (const { file, test, state } of finished) {
    if (test !== undefined || state !== 'failed' || failedIn.has(file)) continue
    tally.failed++
    tally.failures.push(`${file}: an error outside a test`)
  }
  const left = files.filter((file) => !ended.has(file) && !again.has(file))
  tally.skipped += left.length
  return left
}
