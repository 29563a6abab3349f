import type { DrawEvent } from '../protocol/events.ts'
import { isUndoable } from '../protocol/undoable.ts'
import type { NoteTemplate } from './noteTemplate.ts'

/** A few words for an entry that was taken back. What nobody can take back has none: its code, from a foreign log. */
export function eventName(
  event: DrawEvent,
  { words, flags, exceptions }: Pick<NoteTemplate, 'words' | 'flags' | 'exceptions'>,
): string {
  const { type } = event
  if (type === 'flagRaised') return flags[event.flag] ?? event.flag
  if (type === 'exceptionRaised') return exceptions[event.kind] ?? event.kind
  return isUndoable(type) ? words.event[type] : type
}
