import type { DrawLog } from '../protocol/entry.ts'
import type { Identifier } from '../protocol/events.ts'
import { identityConfirmed } from '../protocol/sharedPredicates.ts'
import { indentedText, shownText } from '../text/shownText.ts'
import { fullMoment } from '../time/format.ts'
import type { DrawFacts } from './drawFacts.ts'
import { factsOf } from './factsOf.ts'
import { noteFields } from './noteFields.ts'
import type { NoteScope, NoteTemplate, TemplateSection } from './noteTemplate.ts'
import type { SpecimenRisk } from './risk.ts'
import { fill, noteWords, personText, type Fields, type TestName } from './noteWords.ts'
import { saysWrongPerson } from './saysWrongPerson.ts'

export interface NoteLine {
  readonly label: string
  readonly value: string
  /** Something the line asks for is not in the log. */
  readonly missing: boolean
}

export interface NoteSection {
  readonly each: NoteScope
  readonly title: string
  readonly lines: readonly NoteLine[]
}

export interface NoteAddendum {
  /** Local ISO time. */
  readonly at: string
  readonly by: string
  readonly text: string
  readonly why: string
}

export interface Note {
  readonly drawId: string
  readonly title: string
  /** What a reader must know first: practice draw, not closed, identity not confirmed. */
  readonly warnings: readonly string[]
  readonly sections: readonly NoteSection[]
  readonly addenda: readonly NoteAddendum[]
  /** All of it as plain text, for copying. */
  readonly text: string
}

/**
 * Writes the chart note from a log and the site's wording. Nothing is added that the log does not hold; a fact that
 * is not there reads as not recorded. Addenda stand after the text, which they never change.
 * @param testName name of a test by its code; the codes themselves without it.
 * @param risks what the laboratory should know, from `specimenRisks`.
 */
export function writeNote(
  log: DrawLog,
  template: NoteTemplate,
  testName: TestName = (code) => code,
  risks: readonly SpecimenRisk[] = [],
): Note {
  const facts = factsOf(log)
  const words = noteWords(template, facts.openedAt, testName)
  const fields = noteFields(facts, log, words, risks)
  const { collecting } = facts.opened
  const isBoth = facts.wentToVein !== undefined
  const notThere = isBoth ? undefined : collecting ? 'puncture' : 'skin'
  const ofThisWay = template.sections.filter(({ each }) => each !== notThere)
  const sections = ofThisWay.flatMap((section) =>
    writeSection(section, fields[section.each], template),
  )
  const warnings = warningsOf(facts, template)
  const addenda = facts.addenda.map(({ at, by, text, why }) => ({
    at: fullMoment(at),
    by: shownText(personText(by)),
    text: shownText(text),
    why: shownText(why),
  }))
  const written = {
    drawId: log.drawId,
    title: [
      ...(collecting ? [template.capillaryTitle] : []),
      ...(isBoth || !collecting ? [template.title] : []),
    ].join('; '),
    warnings,
    sections,
    addenda,
  }
  return { ...written, text: noteText(written, template) }
}

function warningsOf(facts: DrawFacts, template: NoteTemplate): string[] {
  return [
    ...(facts.opened.invented ? [template.invented] : []),
    ...(facts.closed ? [] : [template.notClosed]),
    ...(saysWrongPerson(facts.addenda) ? [template.wrongPerson] : []),
    ...(identityConfirmed(lastAnswers(facts)) ? [] : [template.identityUnchecked]),
  ]
}

/** By identifier the last answer in the log. */
function lastAnswers({ identifiers }: DrawFacts): Partial<Record<Identifier, boolean>> {
  return Object.fromEntries(identifiers.map(({ identifier, matches }) => [identifier, matches]))
}

function writeSection(
  section: TemplateSection,
  repeats: readonly Fields[],
  template: NoteTemplate,
): NoteSection[] {
  if (repeats.length === 0) {
    if (section.whenNone === undefined) return []
    const line = { label: '', value: section.whenNone, missing: false }
    return [{ each: section.each, title: section.title.replace(/\s*\{\w+\}/g, ''), lines: [line] }]
  }
  const write = (fields: Fields): NoteLine[] =>
    section.lines.flatMap((line) => {
      const value = fill(line.value, fields, template.notRecorded)
      if (line.optional === true && value.empty) return []
      const label = fill(line.label, fields, template.notRecorded).text
      return [{ label, value: value.text, missing: value.missing }]
    })
  // A field in the title (puncture 1, 2) makes each repetition a section of its own.
  if (!section.title.includes('{')) {
    return [{ each: section.each, title: section.title, lines: repeats.flatMap(write) }]
  }
  return repeats.map((fields) => ({
    each: section.each,
    title: fill(section.title, fields, template.notRecorded).text,
    lines: write(fields),
  }))
}

function noteText(note: Omit<Note, 'text'>, template: NoteTemplate): string {
  const sections = note.sections.map(({ title, lines }) =>
    [
      oneLine(title),
      ...lines.map(({ label, value }) => textLine(label ? `${oneLine(label)}: ${value}` : value)),
    ].join('\n'),
  )
  const addenda = note.addenda.map((addendum) =>
    textLine(fill(template.addendum, { ...addendum }, template.notRecorded).text),
  )
  const last = addenda.length > 0 ? [[template.addendaTitle, ...addenda].join('\n')] : []
  return `${[[note.title, ...note.warnings].join('\n'), ...sections, ...last].join('\n\n')}\n`
}

/** A line of the text; what was recorded in several lines goes on behind a bar and forges none of the note's own. */
const textLine = (text: string): string => `  ${indentedText(text, '    ')}`

/** A label stands on one line: a break in what fills it is shown as its code. */
const oneLine = (text: string): string => text.replaceAll('\n', '[U+000A]')
