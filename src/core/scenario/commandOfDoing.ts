import { defined } from '../basics/defined.ts'
import type { Command, CommandKey } from '../protocol/commands.ts'
import { labelNumber } from '../protocol/facts.ts'
import { commandOf, openCommands, type OpenCommands } from '../protocol/openCommands.ts'
import type { DrawState } from '../protocol/state.ts'
import { stampAfter, type Reading } from '../time/stamp.ts'
import type { Doing } from './scenario.ts'

/** Why a line of a script stands for nothing at this moment. */
export type NoCommand =
  { readonly none: 'button' } | { readonly none: 'tube'; readonly number: number }

/** The command a line of a script stands for at this moment, or why there is none. */
export function commandOfDoing(
  doing: Doing,
  s: DrawState,
  now: Reading,
): { readonly command: Command; readonly key?: CommandKey } | NoCommand {
  switch (doing.kind) {
    case 'command':
      return defined({ command: doing.command, key: doing.key })
    case 'main':
    case 'choice': {
      const open = openNow(s, now)
      const key = doing.kind === 'main' ? open.main : open.step[doing.number - 1]
      return key ? { command: commandOf(key), key } : { none: 'button' }
    }
    default: {
      const tubeId = s.plan.tubes[doing.tube - 1]?.id
      if (tubeId === undefined) return { none: 'tube', number: doing.tube }
      return { command: ofTube(doing, s, tubeId) }
    }
  }
}

type OfTube = Extract<Doing, { readonly tube: number }>

function ofTube(doing: OfTube, s: DrawState, tubeId: string): Command {
  switch (doing.kind) {
    case 'tubeNamed':
      return { type: 'tubeOnNamed', tubeId }
    case 'unlabelled':
      return { type: 'settleUnlabelled', tubeId, how: doing.how, by: doing.by }
    case 'lost':
      return { type: 'raise', kind: doing.why, tubeId }
    case 'label':
      return { type: 'scanLabel', text: labelNumber(s, tubeId) }
  }
}

/** What may be said or touched at this moment. */
export function openNow(s: DrawState, now: Reading): OpenCommands {
  return openCommands(s, stampAfter(s.last.at, now))
}
