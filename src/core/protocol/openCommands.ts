import type { Command, CommandKey, PlainCommand } from './commands.ts'
import { decide } from './decide.ts'
import type { DrawState } from './state.ts'
import { mainOf, stepOf } from './steps.ts'
import type { Stamp } from '../time/stamp.ts'

/** Trouble that may be said at any time, and what steers the app. */
export const ALWAYS_OPEN: readonly PlainCommand[] = ['stopEverything', 'faint', 'sharpPain', 'swelling', 'needlestick', 'sayAgain', 'goBack', 'howLong', 'pauseListening', 'resumeListening'] // prettier-ignore

/** Everything that may be recorded though the step does not call for it. */
const MAY_HAPPEN: readonly PlainCommand[] = [
  'bandOn', 'bandOff', 'skinClean', 'needleIn', 'needleOut', 'pressureOn', 'tubeOn', 'tubeFull', 'tubeShort', 'tubeMixed', 'lastTube',
  'shieldClicked', 'sharpsDone', 'bleedingStopped', 'bandageOn', 'bleedingContinues', 'brightBlood', 'nausea', 'withdrawConsent',
  'veinRolled', 'slowFlow', 'flowLost', 'noVacuum', 'wrongTube', 'expiredTube', 'droppedTube', 'unlabelledTube', 'fistSeen', 'interrupted',
] // prettier-ignore

/** What may be confirmed now, by the step of the moment and by what is open. */
export interface OpenCommands {
  readonly main: PlainCommand | undefined
  readonly step: readonly CommandKey[]
  readonly always: readonly PlainCommand[]
  /** For touch: facts that can be recorded out of order. */
  readonly happened: readonly PlainCommand[]
}

/** A command from its key, `chooseArm:left` or a plain name. */
export function commandOf(key: CommandKey): Command {
  const [type, value] = key.split(':')
  if (type === 'chooseArm') return { type, arm: value === 'left' ? 'left' : 'right' }
  if (type === 'chooseVein')
    return { type, vein: value as Extract<Command, { type: 'chooseVein' }>['vein'] }
  return { type: key as PlainCommand }
}

/** Sorts the commands by whether they can be true now; those that cannot are not offered. */
export function openCommands(s: DrawState, now: Stamp): OpenCommands {
  const row = stepOf(s)
  const main = mainOf(s)
  const possible = (key: CommandKey): boolean => decide(s, commandOf(key), now).kind !== 'senseless'
  const handled: CommandKey[] = s.exceptions.length > 0 ? ['exceptionHandled'] : []
  const resume: CommandKey[] = s.exceptions.some(({ kind }) => kind === 'interrupted')
    ? ['resumeDraw']
    : []
  const step = [...new Set([...row.also, ...resume, ...handled])].filter(
    (key) => key !== main && possible(key),
  )
  const restricted = s.opened?.preparation.restrictions ?? {}
  const offered = step.filter(
    (key) =>
      !(key === 'chooseArm:left' && restricted.left) &&
      !(key === 'chooseArm:right' && restricted.right),
  )
  const always = ALWAYS_OPEN.filter((key) => possible(key))
  const here = new Set<string>([...offered, ...always, main ?? ''])
  return {
    main,
    step: offered,
    always,
    happened: MAY_HAPPEN.filter((key) => !here.has(key) && possible(key)),
  }
}
