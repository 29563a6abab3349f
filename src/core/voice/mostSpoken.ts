/** How long speech may last that is a phrase and nothing more: so much, and so much for each letter, ms. */
export interface SpokenLimits {
  readonly longest_ms: number
  readonly longestMore_ms: number
}

/** The longest that a phrase takes to say, ms; longer speech is more than it. */
export const mostSpoken_ms = (phrase: string, limits: SpokenLimits): number =>
  limits.longest_ms + limits.longestMore_ms * phrase.replaceAll(' ', '').length
