/**
 * Below so many cases a share is not told: rates on fewer than 20 are too open to chance to stand for what is usual
 * (Australian Institute of Health and Welfare, technical notes on urgent care: rates on fewer than 20 are withheld for
 * their volatility).
 */
export const ENOUGH_n = 20

/** Whether a share or a middle of so many cases says anything. */
export const isEnough = (n: number): boolean => n >= ENOUGH_n
