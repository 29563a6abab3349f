import { appendFileSync } from 'node:fs'
import type { TestCase, TestModule } from 'vitest/node'

/** One line of what `FINISHED_ENV` names: a test that came to its end, or a file that did. */
export interface Finished {
  readonly file: string
  /** Missing for a file as a whole. */
  readonly test?: string
  readonly state: string
}

/** Names the file that the lines go to. */
export const FINISHED_ENV = 'STILLHAND_FINISHED'

const write = (line: Finished): void =>
  appendFileSync(process.env[FINISHED_ENV] ?? '', `${JSON.stringify(line)}\n`)

/** Writes each result down as it comes: Vitest's own report is lost where a run is ended before its end. */
export default class FinishedReporter {
  onTestCaseResult(test: TestCase): void {
    const { state } = test.result()
    write({ file: test.module.relativeModuleId, test: test.fullName, state })
  }

  onTestModuleEnd(module: TestModule): void {
    write({ file: module.relativeModuleId, state: module.state() })
  }
}
