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
  /** It was ended because its time was over. */
  readonly isEnded: boolean
}

/** As `nice` counts: each step is a fifth less of what is fought for. */
const NICE = {
  wholly: constants.priority.PRIORITY_LOW,
  partly: constants.priority.PRIORITY_BELOW_NORMAL,
} as const

export interface ToolOptions {
  /** Shown as it comes; otherwise kept for the caller. */
  readonly live?: boolean
  /** Gives way to what else runs on this machine: `wholly`, or so far that it still ends in its time. */
  readonly yielding?: keyof typeof NICE | undefined
  readonly env?: Readonly<Record<string, string>>
  /** It is ended then, ms since 1970 UTC. */
  readonly until_ms?: number
}

/** So long it may take to end by itself what it has opened. */
const GRACE_ms = 20_000
/** The longest that a timer of Node waits. */
const MOST_TIMER_ms = 2_147_483_647

/** Runs a tool of node_modules to its end; a tool that cannot be started is one that failed. */
export function runTool(
  command: string,
  args: readonly string[],
  { live = false, yielding, env = {}, until_ms = Infinity }: ToolOptions = {},
): Promise<ToolRun> {
  const started = performance.now()
  const pieces: string[] = []
  const tool = spawn(join(ROOT, 'node_modules', '.bin', command), args, {
    cwd: ROOT,
    env: { ...process.env, ...env },
    // With a group of its own all that it has started is ended with it.
    detached: until_ms < Infinity,
    stdio: ['ignore', live ? 'inherit' : 'pipe', live ? 'inherit' : 'pipe'],
  })
  if (yielding && tool.pid !== undefined) giveWay(tool.pid, NICE[yielding])
  for (const stream of [tool.stdout, tool.stderr]) {
    stream?.setEncoding('utf8').on('data', (text: string) => void pieces.push(text))
  }
  let isEnded = false
  const timers = [
    setTimeout(
      () => {
        isEnded = true
        endGroup(tool.pid, 'SIGTERM')
        timers.push(setTimeout(() => endGroup(tool.pid, 'SIGKILL'), GRACE_ms))
      },
      Math.min(MOST_TIMER_ms, Math.max(0, until_ms - Date.now())),
    ),
  ]
  return new Promise((resolve) => {
    const end = (ok: boolean): void => {
      timers.forEach(clearTimeout)
      const seconds = (performance.now() - started) / 1000
      resolve({ ok, seconds, output: pieces.join(''), isEnded })
    }
    tool.on('error', (error) => {
      pieces.push(errorText(error))
      end(false)
    })
    tool.on('close', (status) => end(status === 0))
  })
}

function endGroup(pid: number | undefined, signal: NodeJS.Signals): void {
  try {
    if (pid !== undefined) process.kill(-pid, signal)
  } catch {
    // It has just come to its end.
  }
}

function giveWay(pid: number, nice: number): void {
  try {
    setPriority(pid, nice)
  } catch {
    // Then it runs as everything else does.
  }
}
