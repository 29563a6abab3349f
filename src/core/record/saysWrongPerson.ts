import type { LogEntry } from '../protocol/entry.ts'

/** Somebody added to the record that all of it is of another person. */
export const saysWrongPerson = (addenda: readonly { readonly wrongPerson?: true }[]): boolean =>
  addenda.some(({ wrongPerson }) => wrongPerson === true)

/** The same of a log as it stands. */
export const logSaysWrongPerson = (entries: readonly LogEntry[]): boolean =>
  saysWrongPerson(entries.flatMap(({ event }) => (event.type === 'addendumMade' ? [event] : [])))
