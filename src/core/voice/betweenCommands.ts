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
  'packNumber',
  'packComplete',
  'packShort',
] as const
export type BetweenCommand = (typeof BETWEEN_COMMANDS)[number]

/** Those that mean a pack: heard only where packs are counted. */
export const PACK_COMMANDS: ReadonlySet<BetweenCommand> = new Set([
  'packNumber',
  'packComplete',
  'packShort',
])
