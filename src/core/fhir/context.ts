import { defined } from '../basics/defined.ts'
import { fillText, type TextValues } from '../basics/fillText.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { Sha256 } from '../log/seal.ts'
import type { DrawFacts } from '../record/drawFacts.ts'
import { factsOf } from '../record/factsOf.ts'
import { labeledTubes } from '../record/labeledTubes.ts'
import type { Note } from '../record/note.ts'
import { recordNote } from '../record/recordNote.ts'
import type { NoteTemplate } from '../record/noteTemplate.ts'
import type { FhirText, RecordTexts } from '../record/recordTexts.ts'
import { specimenRisks, type SpecimenRisk } from '../record/risk.ts'
import type { TubeFact } from '../record/drawFacts.ts'
import { isoLocal } from '../time/format.ts'
import { LOCAL, TEST_DATA } from './codes.ts'
import type { AnyResource, Coding, Identifier, Reference } from './resources.ts'
import { uuidOf } from './uuid.ts'

/** What the catalogue knows of a test, by its code. */
export interface TestInfo {
  readonly testName: (code: string) => string
  readonly needsFasting: (code: string) => boolean
  /** Codes that the site filled in, such as LOINC, written beside the code of the catalogue. */
  readonly codings: (code: string) => readonly Coding[]
}

/** Where there is no catalogue at hand: codes stand as they are. */
export const NO_TEST_INFO: TestInfo = {
  testName: (code) => code,
  needsFasting: () => true,
  codings: () => [],
}

/** The words a bundle is written in. */
export interface FhirTexts {
  readonly note: NoteTemplate
  readonly record: RecordTexts
}

/** What every builder of a resource needs. */
export interface FhirContext {
  readonly log: DrawLog
  readonly facts: DrawFacts
  readonly texts: FhirTexts
  /** One of our own texts with its values filled in. */
  readonly say: (text: FhirText, values?: TextValues) => string
  readonly note: Note
  readonly risks: readonly SpecimenRisk[]
  /** Tubes that become Specimens, in the order drawn. */
  readonly specimens: readonly TubeFact[]
  readonly tests: TestInfo
  /** Local ISO time of the last entry: when the record was as it is now. */
  readonly recorded: string
  /** Absolute address of a resource within the bundle, by a name of ours. */
  readonly urlOf: (name: string) => string
  readonly refTo: (name: string, display?: string) => Reference
  /** What a resource that has no number of its own is found by on a server: the draw's number and its name. */
  readonly numberOf: (name: string) => readonly Identifier[]
  /** For invented data the mark that says so. */
  readonly mark: { readonly meta?: { readonly tag: readonly Coding[] } }
  /**
   * The mark of what has no identifier in R4 (Provenance, AuditEvent): a tag with the hash of the log's entry with
   * which it came to be.
   */
  readonly taggedBy: (hash: string) => { readonly meta: { readonly tag: readonly Coding[] } }
  /** Type, id and, for invented data, the mark that says so. */
  readonly head: <T extends AnyResource['resourceType']>(
    resourceType: T,
    name: string,
  ) => { readonly resourceType: T; readonly id: string }
}

export function fhirContext(
  log: DrawLog,
  texts: FhirTexts,
  sha256: Sha256,
  tests: TestInfo,
): FhirContext {
  const facts = factsOf(log)
  const uuid = (name: string): string => uuidOf(`${log.drawId}/${name}`, sha256)
  const urlOf = (name: string): string => `urn:uuid:${uuid(name)}`
  const mark: FhirContext['mark'] = facts.opened.invented ? { meta: { tag: [TEST_DATA] } } : {}
  return {
    log,
    facts,
    texts,
    say: (text, values) => fillText(texts.record.fhir[text], values, texts.record.language),
    note: recordNote(log, texts, tests.testName, tests.needsFasting),
    risks: specimenRisks(log, texts.record, tests.needsFasting, tests.testName),
    specimens: labeledTubes(facts),
    tests,
    recorded: isoLocal(facts.recordedAt),
    urlOf,
    refTo: (name, display) => defined({ reference: urlOf(name), display: display || undefined }),
    numberOf: (name) => [{ system: LOCAL.draw, value: `${log.drawId}/${name}` }],
    mark,
    taggedBy: (hash) => ({
      meta: { tag: [...(mark.meta?.tag ?? []), { system: LOCAL.log, code: hash }] },
    }),
    head: (resourceType, name) => ({ resourceType, id: uuid(name), ...mark }),
  }
}

/** Names of resources, which their addresses are made from. */
export const NAME = {
  patient: 'patient',
  procedure: 'procedure',
  skinProcedure: 'procedure/skin',
  consent: 'consent',
  note: 'note',
  provenance: 'provenance',
  audit: 'audit',
  collector: (id: string): string => `collector/${id}`,
  request: (index: number): string => `request/${index}`,
  /** A redrawn tube is another specimen than the lost one, which may have been sent under the first address. */
  specimen: (tubeId: string, { redrawn }: Pick<DrawFacts, 'redrawn'>): string =>
    ['specimen', tubeId, ...(redrawn.has(tubeId) ? [redrawn.get(tubeId)] : [])].join('/'),
  sitting: (key: string): string => `sitting/${key}`,
  task: (index: number): string => `task/${index}`,
  band: (puncture: number, index: number): string => `band/${puncture}/${index}`,
} as const
