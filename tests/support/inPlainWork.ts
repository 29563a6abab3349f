/** Milliseconds of processor time that a piece of work takes: what else the machine is doing hardly counts. */
function cpuTime_ms(work: () => unknown): number {
  const before = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

const PLAIN = JSON.stringify(Array.from({ length: 100_000 }, (_, i) => ({ code: `c${i}`, at: i })))
/** What a busy machine does to one try it seldom does to three. */
const TRIES = 3

/**
 * How long a piece of work takes, in the time that the engine takes to read a JSON text of 2.6 MB, measured beside it:
 * a slow machine is slow at both. Of three tries the best counts.
 */
export function inPlainWork(work: () => unknown): number {
  const tries = Array.from({ length: TRIES }, () => {
    const plain_ms = cpuTime_ms(() => JSON.parse(PLAIN) as unknown)
    return cpuTime_ms(work) / plain_ms
  })
  return Math.min(...tries)
}
