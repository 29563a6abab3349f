/** What came of all checks so far: each tool counts as one, each test as one. */
export interface Tally {
  passed: number
  failed: number
  skipped: number
  readonly failures: string[]
}

export const emptyTally = (): Tally => ({ passed: 0, failed: 0, skipped: 0, failures: [] })

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
export function closingLines({ passed, failed, skipped, failures }: Tally): string {
  const names = failures.map((name) => `  ${name}`).join('\n')
  const left = skipped > 0 ? `, ${skipped} skipped` : ''
  return `${names && `\nFailed:\n${names}\n`}\n${passed} passed, ${failed} failed${left}`
}
