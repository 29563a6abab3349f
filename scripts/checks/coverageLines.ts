/** The part of Istanbul's `coverage-summary.json` that is told: for each file, and `total`. */
export type CoverageSummary = Readonly<
  Record<string, { readonly lines: { readonly total: number; readonly covered: number } }>
>

/** How much the unit tests ran through, and where most of the rest is; told, never held against a run. */
export function coverageLines(summary: CoverageSummary, root: string, most: number): string {
  const { total, ...files } = summary
  if (!total) return 'The coverage was not measured.'
  const rest = Object.entries(files)
    .map(([file, { lines }]) => ({ file, open: lines.total - lines.covered }))
    .filter(({ open }) => open > 0)
    .sort((a, b) => b.open - a.open)
    .slice(0, most)
    .map(({ file, open }) => `  ${String(open).padStart(4)}  ${file.replace(`${root}/`, '')}`)
  const { covered, total: all } = total.lines
  const percent = ((100 * covered) / all).toFixed(1)
  return [`Unit tests ran ${covered} of ${all} lines (${percent} %). Most left:`, ...rest].join(
    '\n',
  )
}
