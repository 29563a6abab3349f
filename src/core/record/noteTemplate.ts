import type { LimitKey } from '../policy/policy.ts'
import type { Flag } from '../protocol/events.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import type { NoteWordCode, NoteWordKind } from './noteWordCodes.ts'

/** What a section of the note is repeated for. `draw` sections stand once. */
export const NOTE_SCOPES = [
  'draw',
  'puncture',
  'skin',
  'band',
  'tube',
  'discard',
  'notDrawn',
  'missing',
  'swap',
  'unlabelled',
  'exception',
  'flag',
  'risk',
  'remark',
  'retracted',
  'policyChange',
  'clock',
] as const
export type NoteScope = (typeof NOTE_SCOPES)[number]

/** Label and value may hold fields in braces, `{bandOn}`; which there are is in `noteFields.ts`. */
export interface TemplateLine {
  readonly label: string
  readonly value: string
  /** Left out when none of its fields has a value; any other line then reads `notRecorded`. */
  readonly optional?: boolean
}

export interface TemplateSection {
  readonly title: string
  readonly each: NoteScope
  /** What the section says when there is nothing to repeat; without it the section is left out. */
  readonly whenNone?: string
  readonly lines: readonly TemplateLine[]
}

/** The words of the chart note: a data file that a site may edit. */
export interface NoteTemplate {
  readonly title: string
  /** Its title where no vein was used. */
  readonly capillaryTitle: string
  readonly notRecorded: string
  readonly invented: string
  readonly notClosed: string
  readonly identityUnchecked: string
  /** An addendum says that the record tells of another person. */
  readonly wrongPerson: string
  readonly addendaTitle: string
  readonly addendum: string
  readonly sections: readonly TemplateSection[]
  /** Words for values that a log holds as codes, by field and code. */
  readonly words: { readonly [K in NoteWordKind]: Readonly<Record<NoteWordCode<K>, string>> }
  readonly flags: Readonly<Record<Flag, string>>
  readonly exceptions: Readonly<Record<ExceptionKind, string>>
  readonly limits: Readonly<Record<LimitKey, string>>
}
