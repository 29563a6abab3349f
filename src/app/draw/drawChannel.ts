import type { Command } from '../../core/protocol/commands.ts'
import type { Ask } from '../../core/protocol/asks.ts'
import type { Source } from '../../core/protocol/entry.ts'
import type { HeardView, ListeningView } from '../view/drawViewTypes.ts'
import type { DrawSession } from './drawSession.ts'

/** A running draw as an input sees it: how it stands, a way in for commands, and what to show of the input. */
export interface DrawChannel {
  readonly session: Pick<DrawSession, 'state' | 'log'>
  /** @param held it was said while the ears were held open */
  dispatch(command: Command, source: Source, transcript?: string, held?: true): Promise<void>
  /** A question is open, so only its answers count. */
  asking(): Ask | undefined
  /** Tells that something is not done, and why. */
  refuse(text: string): void
  showHeard(heard: HeardView): void
  /** @param atOnce and not with the next beat */
  showListening(listening: ListeningView, atOnce?: boolean): void
}
