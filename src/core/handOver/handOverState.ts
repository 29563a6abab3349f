/** How handing over stands as a whole. */
export const HAND_OVER_STATES = [
  /** The site names no record server. */
  'none',
  /** What the site says of it does not read. */
  'unread',
  'off',
  /** It was switched on for another address than the site names now. */
  'otherServer',
  'paused',
  /** A draw runs on this page. */
  'drawing',
  /** What the clinic's other devices have drawn was not read yet. */
  'reading',
  'elsewhere',
  'sending',
  /** Something keeps everything back. */
  'waiting',
  'idle',
] as const
export type HandOverState = (typeof HAND_OVER_STATES)[number]

/** How a device logs in at the record server. */
export type HandOverLogin = 'none' | 'launch' | 'backend' | 'both'
