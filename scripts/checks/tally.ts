/** What came of all checks so far: each tool counts as one, each test as one. */
export interface Tally {
  passed: number
  failed: number
  skipped: number
  readonly failures: string[]
  /** Test files that failed beside other work, which are to be tried once more alone. */
  readonly again: string[]
}

export const emptyTally = (): Tally => ({
  passed: 0,
  failed: 0,
  skipped: 0,
  failures: [],
  again: [],
})

/** Counts one check and says so. */
export function note(tally: Tally, name: string, ok: boolean, seconds: number): void {
  if (ok) tally.passed++
  else {
    tally.failed++
    tally.failures.push(name)
  }
  console.log(`${ok ? 'ok    ' : 'FAILED'} ${name} (${seconds.toFixed(1)} s)`)
}

/** The names of what failed, and the line that ends every run: `N passed, N failed, N skipped`. */
export function closingLines({ passed, failed, skipped, failures, again }: Tally): string {
  const names = failures.map((name) => `  ${name}`).join('\n')
  const left = skipped > 0 ? `, ${skipped} skipped` : ''
  const twice =
    again.length > 0 ? `Failed beside other work, tried again alone: ${again.join(', ')}\n` : ''
  return `${twice}${names && `\nFailed:\n${names}\n`}\n${passed} passed, ${failed} failed${left}`
}
