import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { runTool, type ToolOptions } from './runTool.ts'
import { note, type Tally } from './tally.ts'
import { countReport, type VitestReport } from './vitestReport.ts'

/** Runs tests with Vitest and adds them to the tally; gives what was printed, where it was not shown at once. */
export async function runTests(
  tally: Tally,
  name: string,
  args: readonly string[],
  options: ToolOptions,
): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'stillhand-test-'))
  const file = join(folder, 'report.json')
  if (options.live) console.log(`\n${name}`)
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`]
  const { ok, seconds, output } = await runTool('vitest', ['run', ...args, ...reporters], options)
  const wrong = countReport(tally, readReport(file), ok)
  rmSync(folder, { recursive: true, force: true })
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
