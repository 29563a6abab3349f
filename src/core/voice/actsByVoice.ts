import { isUndoable } from '../protocol/undoable.ts'
import { keptEntries } from '../protocol/keptEntries.ts'
import type { LogEntry } from '../protocol/entry.ts'
import type { VoiceAct } from './ownVoice.ts'

/**
 * A mishearing is seen at once on the screen or heard in the prompt; what is taken back later than this was another
 * mistake. Our choice, no source.
 */
export const NOTICED_ms = 30_000

/** An answer stands for what was asked, so that taking it back says nothing of its words. */
const ANSWERS: ReadonlySet<string> = new Set(['confirmYes', 'confirmNo'])

/**
 * What each person did by voice in a draw, by the collector's id, with whether it was taken back soon after. Entries of
 * one moment are one act. Words that are no wording of the site's, or one of two commands, are left out.
 * @param book the site's wordings by command
 */
export function actsByVoice(
  entries: readonly LogEntry[],
  book: Readonly<Record<string, readonly string[] | undefined>>,
): ReadonlyMap<string, readonly VoiceAct[]> {
  const keyOf = keysByWording(book)
  const takenBack = soonTakenBack(entries)
  const acts = new Map<string, { readonly by: string; readonly act: VoiceAct }>()
  for (const entry of entries) {
    const { by, source, heard, at, event } = entry
    const key = heard === undefined ? undefined : keyOf.get(heard)
    if (source !== 'voice' || heard === undefined || key === undefined) continue
    if (!isUndoable(event.type)) continue
    const moment = JSON.stringify([by, at.boot, at.mono_ms, heard])
    const isTakenBack = takenBack.has(entry) || acts.get(moment)?.act.isTakenBack === true
    acts.set(moment, { by, act: { key, phrase: heard, isTakenBack } })
  }
  const byPerson = new Map<string, readonly VoiceAct[]>()
  for (const { by, act } of acts.values()) byPerson.set(by, [...(byPerson.get(by) ?? []), act])
  return byPerson
}

function keysByWording(
  book: Readonly<Record<string, readonly string[] | undefined>>,
): ReadonlyMap<string, string | undefined> {
  const keys = new Map<string, string | undefined>()
  for (const [key, wordings = []] of Object.entries(book)) {
    if (ANSWERS.has(key)) continue
    for (const wording of wordings) keys.set(wording, keys.has(wording) ? undefined : key)
  }
  return keys
}

function soonTakenBack(entries: readonly LogEntry[]): ReadonlySet<LogEntry> {
  const soon = keptEntries(entries).retracted.filter(
    ({ entry, by }) => by.at.at_ms - entry.at.at_ms <= NOTICED_ms,
  )
  return new Set(soon.map(({ entry }) => entry))
}
