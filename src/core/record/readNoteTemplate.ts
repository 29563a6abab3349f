import { flag, listOf, oneOf, optional, shapeOf, text } from '../log/shape.ts'
import { LIMIT_KEYS } from '../policy/policy.ts'
import { FLAGS } from '../protocol/events.ts'
import { EXCEPTION_KINDS } from '../protocol/exceptions.ts'
import { NOTE_FIELD_NAMES } from './noteFieldNames.ts'
import { NOTE_WORD_CODES } from './noteWordCodes.ts'
import { NOTE_SCOPES, type NoteTemplate, type TemplateSection } from './noteTemplate.ts'

const wordsFor = (keys: readonly string[]) =>
  shapeOf(Object.fromEntries(keys.map((key) => [key, text])))

const templateShape = shapeOf({
  title: text,
  capillaryTitle: text,
  notRecorded: text,
  invented: text,
  notClosed: text,
  identityUnchecked: text,
  wrongPerson: text,
  addendaTitle: text,
  addendum: text,
  sections: listOf(
    shapeOf({
      title: text,
      each: oneOf(NOTE_SCOPES),
      whenNone: optional(text),
      lines: listOf(shapeOf({ label: text, value: text, optional: optional(flag) })),
    }),
  ),
  words: shapeOf(
    Object.fromEntries(
      Object.entries(NOTE_WORD_CODES).map(([kind, codes]) => [kind, wordsFor(codes)]),
    ),
  ),
  flags: wordsFor(FLAGS),
  exceptions: wordsFor(EXCEPTION_KINDS),
  limits: wordsFor(LIMIT_KEYS),
})

/**
 * Takes a site's wording of the note from its data file.
 * @throws RangeError that says where the file is wrong: a missing word, or a field in braces that there is not.
 */
export function readNoteTemplate(value: unknown): NoteTemplate {
  const fault = templateShape(value, 'note template')
  if (fault) throw new RangeError(`${fault.path} should be: ${fault.want}.`)
  const template = value as NoteTemplate
  const wrong = template.sections.flatMap(unknownFields)[0]
  if (wrong) throw new RangeError(`${wrong}.`)
  return template
}

function unknownFields(section: TemplateSection): string[] {
  const known = NOTE_FIELD_NAMES[section.each]
  const texts = [section.title, ...section.lines.flatMap(({ label, value }) => [label, value])]
  return texts
    .flatMap((line) => [...line.matchAll(/\{([^}]*)\}/g)].map((match) => match[1] ?? ''))
    .filter((name) => !known.includes(name))
    .map((name) => `section "${section.title}" has no field {${name}}; it has ${known.join(', ')}`)
}
