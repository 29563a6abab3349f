/** From and to, both within 0 to 1. */
export interface ShareRange {
  readonly from: number
  readonly to: number
}

/**
 * Where the share behind some counts is likely to lie: of few tries a wide range, of many a narrow one, and of none all
 * of it. The score interval (E. B. Wilson, Probable inference, JASA 22, 1927) at one standard error: about two of three
 * such ranges hold the true share. So mild a caution is our choice, since what hangs on it is which words are shown.
 * @param count how often something happened, of `of` tries
 */
export function likelyShare(count: number, of: number): ShareRange {
  if (of === 0) return { from: 0, to: 1 }
  const share = count / of
  const middle = (share + 1 / (2 * of)) / (1 + 1 / of)
  const half = Math.sqrt((share * (1 - share)) / of + 1 / (4 * of * of)) / (1 + 1 / of)
  return { from: Math.max(0, middle - half), to: Math.min(1, middle + half) }
}
