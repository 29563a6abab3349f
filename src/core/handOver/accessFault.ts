/** Why there is no right to talk to the server. */
export const ACCESS_FAULTS = [
  /** A draw is under way on this page, which is not left for a login. */
  'drawing',
  /** Nobody has come from a chart, or what they brought has ended. */
  'noLaunch',
  /** The authorization server does not answer. */
  'unreachable',
  /** It does not know this device, its key or its code. */
  'refused',
  /** It gives less than is asked for. */
  'scope',
  /** It is another one than the site set. */
  'otherServer',
  /** What it answers is not what SMART App Launch says. */
  'notSmart',
  /** The clock of this device and that of the server differ too much. */
  'clock',
] as const
export type AccessFault = (typeof ACCESS_FAULTS)[number]
