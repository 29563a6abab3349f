/** What may be said between patients and at the bench, where no draw is on the screen. */
export const BETWEEN_COMMANDS = [
  'nextPatient',
  'readList',
  'whatIsDue',
  'spinStarted',
  'spinEnded',
  'separated',
  'stored',
  'bagged',
  'takeBack',
] as const
export type BetweenCommand = (typeof BETWEEN_COMMANDS)[number]
