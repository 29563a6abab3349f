/**
 * The value at a share of sorted values, 0 to 1: straight between the two around place `share × (n - 1)`, the way of
 * most spreadsheets (type 7 of Hyndman and Fan 1996, Am Stat 50:361). `undefined` of nothing.
 */
export function quantile(values: readonly number[], share: number): number | undefined {
  const sorted = [...values].sort((a, b) => a - b)
  const place = share * (sorted.length - 1)
  const below = sorted[Math.floor(place)]
  const above = sorted[Math.ceil(place)]
  if (below === undefined || above === undefined) return undefined
  return below + (above - below) * (place - Math.floor(place))
}

/** The middle value, or halfway between the two in the middle; `undefined` of nothing. */
export function median(values: readonly number[]): number | undefined {
  return quantile(values, 0.5)
}
