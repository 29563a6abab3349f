import { spawn, type ChildProcess } from 'node:child_process'

/** Starts a class of `tests/servers/java`, as `npm run test:servers` built it; least of the memory it needs. */
export function startJava(name: string, memory: string, args: readonly string[]): ChildProcess {
  const classpath = process.env['STILLHAND_SERVERS']
  if (!classpath) throw new Error('Run these tests by `npm run test:servers`, which builds them.')
  // Only the first compiler: these processes live for minutes.
  const machine = [`-Xmx${memory}`, '-XX:TieredStopAtLevel=1', '-cp', classpath]
  return spawn('java', [...machine, `stillhand.${name}`, ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
}

/** Ends it, and waits until it has ended. */
export function stopJava(process: ChildProcess): Promise<void> {
  if (process.exitCode !== null) return Promise.resolve()
  return new Promise((resolve) => {
    process.once('exit', () => resolve())
    process.kill('SIGKILL')
  })
}
