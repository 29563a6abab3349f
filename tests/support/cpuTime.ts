/** Milliseconds of processor time that a piece of work takes: what else the machine is doing does not count. */
export function cpuTime_ms(work: () => unknown): number {
  const before = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}
