import { spawn } from 'node:child_process'
import { constants, setPriority } from 'node:os'
import { join } from 'node:path'
import { errorText } from '../../src/core/basics/errorText.ts'

export const ROOT = join(import.meta.dirname, '..', '..')

export interface ToolRun {
  readonly ok: boolean
  readonly seconds: number
  /** What it printed, where it was not shown at once. */
  readonly output: string
}

export interface ToolOptions {
  /** Shown as it comes; otherwise kept for the caller. */
  readonly live?: boolean
  /** Gives way to whatever else runs on this machine. */
  readonly yielding?: boolean
  readonly env?: Readonly<Record<string, string>>
}

/** Runs a tool of node_modules to its end; a tool that cannot be started is one that failed. */
export function runTool(
  command: string,
  args: readonly string[],
  { live = false, yielding = false, env = {} }: ToolOptions = {},
): Promise<ToolRun> {
  const started = performance.now()
  const pieces: string[] = []
  const tool = spawn(join(ROOT, 'node_modules', '.bin', command), args, {
    cwd: ROOT,
    env: { ...process.env, ...env },
    stdio: ['ignore', live ? 'inherit' : 'pipe', live ? 'inherit' : 'pipe'],
  })
  if (yielding && tool.pid !== undefined) giveWay(tool.pid)
  for (const stream of [tool.stdout, tool.stderr]) {
    stream?.setEncoding('utf8').on('data', (text: string) => void pieces.push(text))
  }
  return new Promise((resolve) => {
    const end = (ok: boolean): void =>
      resolve({ ok, seconds: (performance.now() - started) / 1000, output: pieces.join('') })
    tool.on('error', (error) => {
      pieces.push(errorText(error))
      end(false)
    })
    tool.on('close', (status) => end(status === 0))
  })
}

function giveWay(pid: number): void {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW)
  } catch {
    // Then it runs as everything else does.
  }
}
