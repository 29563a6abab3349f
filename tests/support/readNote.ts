import { writeNote, type Note, type NoteLine } from '../../src/core/record/note.ts'
import { noteTemplate } from './noteTemplate.ts'
import { sampleLog } from './sampleLog.ts'

/** The first line of a note with that label, in one section or in any. */
export const lineOf = (note: Note, label: string, section?: string): NoteLine | undefined =>
  note.sections
    .filter(({ title }) => section === undefined || title === section)
    .flatMap(({ lines }) => lines)
    .find((line) => line.label === label)

export const valueOf = (note: Note, label: string, section?: string): string | undefined =>
  lineOf(note, label, section)?.value

/** The note of the sample draw with some of it changed. */
export const writeSample = (change: Parameters<typeof sampleLog>[0] = {}): Note =>
  writeNote(sampleLog(change), noteTemplate)
