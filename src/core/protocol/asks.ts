import type { CommandKey } from './commands.ts'

/** Questions asked before a command that is hard to take back is carried out. */
export const ASKS = [
  'endDraw',
  'endUnfinished',
  'refuseConsent',
  'refuseIdentity',
  'tubesLeft',
  'drawnTube',
  'closedArm',
  'samePlace',
  'circlesLeft',
  'afterFaint',
  'overLimit',
  'accessionTwice',
  'accessionElsewhere',
  'unlabelledInHand',
  'unlabelledDiscard',
  'unlabelledAsIs',
] as const
export type Ask = (typeof ASKS)[number]

/** Answers to a question besides yes and no: here why the draw ends, where yes leaves that unsaid. */
export const answersTo = (ask: Ask | undefined): readonly CommandKey[] =>
  ask === 'endUnfinished' ? END_BECAUSE : []

const END_BECAUSE = [
  'endBecause:absent',
  'endBecause:noVein',
  'endBecause:unwell',
  'endBecause:cancelled',
] as const satisfies readonly CommandKey[]

const HARMFUL: ReadonlySet<Ask> = new Set([
  'overLimit',
  'closedArm',
  'samePlace',
  'afterFaint',
  'tubesLeft',
  'drawnTube',
  'accessionTwice',
  'accessionElsewhere',
  'unlabelledInHand',
  'unlabelledDiscard',
  'unlabelledAsIs',
])

/** A yes that was meant for the step before would do what harms: it must be said or pressed by itself. */
export const yesDoesHarm = (ask: Ask): boolean => HARMFUL.has(ask)
