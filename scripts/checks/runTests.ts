import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { countFinished } from './countFinished.ts'
import { FINISHED_ENV } from './finishedReporter.ts'
import { runTool, type ToolOptions } from './runTool.ts'
import { note, type Tally } from './tally.ts'
import { countReport, type VitestReport } from './vitestReport.ts'

export interface TestOptions extends ToolOptions {
  /** A file that fails is not counted but noted, to be tried again when nothing else runs. */
  readonly isTriedAgain?: boolean
}

/** Runs tests with Vitest and adds them to the tally, also those of a run whose time was over; gives what it said. */
export async function runTests(
  tally: Tally,
  name: string,
  args: readonly string[],
  options: TestOptions,
): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-test-'))
  const file = join(folder, 'report.json')
  const finished = join(folder, 'finished')
  writeFileSync(finished, '')
  if (options.live) console.log(`\n${name}`)
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`]
  const lines = `--reporter=${join(import.meta.dirname, 'finishedReporter.ts')}`
  const env = { ...options.env, [FINISHED_ENV]: finished }
  const { ok, seconds, output, isEnded } = await runTool(
    'vitest',
    ['run', ...args, ...reporters, lines],
    { ...options, env },
  )
  const [report, told] = [readReport(file), readFileSync(finished, 'utf8')]
  rmSync(folder, { recursive: true, force: true })
  if (isEnded) {
    const files = args.filter((arg) => arg.endsWith('.ts'))
    const left = countFinished(tally, told, files, options.isTriedAgain)
    console.log(`${name}: the time was over, left out: ${left.join(', ')}`)
    return output
  }
  const wrong = countReport(tally, report, ok, options.isTriedAgain)
  if (wrong !== undefined) note(tally, `${name} (${wrong})`, false, seconds)
  return `\n${name} (${seconds.toFixed(0)} s)\n${output}`
}

function readReport(file: string): VitestReport | undefined {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as VitestReport
  } catch {
    // Vitest stopped before it could report.
    return undefined
  }
}
