/** Questions asked before a command that is hard to take back is carried out. */
export const ASKS = [
  'endDraw',
  'refuseConsent',
  'refuseIdentity',
  'tubesLeft',
  'closedArm',
  'afterFaint',
  'overLimit',
  'accessionTwice',
  'accessionElsewhere',
  'unlabelledInHand',
  'unlabelledDiscard',
  'unlabelledAsIs',
] as const
export type Ask = (typeof ASKS)[number]

const HARMFUL: ReadonlySet<Ask> = new Set([
  'overLimit',
  'closedArm',
  'afterFaint',
  'tubesLeft',
  'accessionTwice',
  'accessionElsewhere',
  'unlabelledInHand',
  'unlabelledDiscard',
  'unlabelledAsIs',
])

/** A yes that was meant for the step before would do what harms: it must be said or pressed by itself. */
export const yesDoesHarm = (ask: Ask): boolean => HARMFUL.has(ask)
