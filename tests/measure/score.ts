/** What a recording brought about. */
export interface Act {
  readonly key: string
  readonly phrase: string
  /** From the end of speech, ms. */
  readonly latency_ms: number
  readonly takenBack: boolean
}

export interface Heard {
  readonly file: string
  readonly text: string
  readonly step: string
  /** Command that the text stands for; empty when nothing may happen. */
  readonly key: string
  readonly length_s: number
  readonly acts: readonly Act[]
  /** What the engine wrote. */
  readonly finals: readonly string[]
}

export interface Score {
  readonly spoken: number
  readonly right: number
  readonly wrong: number
  readonly missed: number
  /** Acts that the final result took back again; not counted as right or wrong. */
  readonly takenBack: number
  readonly false: number
  readonly unrelated_h: number
  /** `null` without unrelated talk. */
  readonly falsePerHour: number | null
  readonly latency_ms: { readonly median: number | null; readonly p95: number | null }
  readonly rows: readonly (Heard & { readonly outcome: Outcome })[]
}

export type Outcome = 'right' | 'wrong' | 'missed' | 'quiet' | 'false'

/** Sorts what happened into right, wrong, missed and false; anything more than the one right command is wrong. */
export function score(heard: readonly Heard[]): Score {
  const rows = heard.map((row) => ({ ...row, outcome: outcomeOf(row) }))
  const count = (outcome: Outcome): number => rows.filter((row) => row.outcome === outcome).length
  const unrelated = rows.filter(({ key }) => key === '')
  const unrelated_h = unrelated.reduce((sum, { length_s }) => sum + length_s, 0) / 3600
  const falses = unrelated.flatMap(standing).length
  const latencies = rows
    .filter(({ outcome }) => outcome === 'right')
    .flatMap((row) => standing(row).map(({ latency_ms }) => latency_ms))
    .sort((a, b) => a - b)
  return {
    spoken: rows.length - unrelated.length,
    right: count('right'),
    wrong: count('wrong'),
    missed: count('missed'),
    takenBack: rows.flatMap(({ acts }) => acts.filter(({ takenBack }) => takenBack)).length,
    false: falses,
    unrelated_h,
    falsePerHour: unrelated_h > 0 ? falses / unrelated_h : null,
    latency_ms: { median: quantile(latencies, 0.5), p95: quantile(latencies, 0.95) },
    rows,
  }
}

const standing = ({ acts }: Heard): readonly Act[] => acts.filter(({ takenBack }) => !takenBack)

function outcomeOf(row: Heard): Outcome {
  const acts = standing(row)
  if (row.key === '') return acts.length > 0 ? 'false' : 'quiet'
  if (acts.length === 0) return 'missed'
  return acts.length === 1 && acts[0]?.key === row.key ? 'right' : 'wrong'
}

/** Nearest-rank quantile of sorted numbers. */
export function quantile(sorted: readonly number[], share: number): number | null {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? null
}
