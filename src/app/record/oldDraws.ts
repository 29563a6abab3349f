import type { StoredDraw } from '../../ports/logStore.ts'

const DAY_ms = 86_400_000

/** Records older than the site keeps them; none while no number of days is set. */
export function oldDraws(
  draws: readonly StoredDraw[],
  retention_days: number,
  now_ms: number,
): readonly StoredDraw[] {
  if (retention_days <= 0) return []
  return draws.filter(({ opened_ms }) => now_ms - opened_ms > retention_days * DAY_ms)
}
