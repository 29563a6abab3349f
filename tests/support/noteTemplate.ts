import { readNoteTemplate } from '../../src/core/record/readNoteTemplate.ts'
import noteJson from '../../src/data/en/note.json' with { type: 'json' }

/** The shipped wording of the chart note. */
export const noteTemplate = readNoteTemplate(noteJson)
