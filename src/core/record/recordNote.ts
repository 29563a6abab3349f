import type { DrawLog } from '../protocol/entry.ts'
import { writeNote, type Note } from './note.ts'
import type { NoteTemplate } from './noteTemplate.ts'
import type { TestName } from './noteWords.ts'
import type { RecordTexts } from './recordTexts.ts'
import { specimenRisks } from './risk.ts'

/** The chart note as it leaves the app: with what the laboratory should know of the specimens. */
export function recordNote(
  log: DrawLog,
  texts: { readonly note: NoteTemplate; readonly record: RecordTexts },
  testName?: TestName,
  needsFasting?: (testCode: string) => boolean,
): Note {
  return writeNote(
    log,
    texts.note,
    testName,
    specimenRisks(log, texts.record, needsFasting, testName),
  )
}
