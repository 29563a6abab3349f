import type { BenchRules } from '../../core/bench/benchRules.ts'
import { NO_SITE_SYSTEMS } from '../../core/fhir/siteSystems.ts'
import type { Policy } from '../../core/policy/policy.ts'
import { readNoteTemplate } from '../../core/record/readNoteTemplate.ts'
import { siteCatalogue, type CatalogueFiles } from './catalogue/siteCatalogue.ts'
import type { BetweenPhraseBook } from './betweenPhraseBook.ts'
import type { PhraseBook } from './phraseBook.ts'
import type { Texts } from './texts.ts'
import type { Demo, SiteData } from './siteData.ts'
import type { Prompts, Words } from './words.ts'

/** The site's data files as they come: parsed JSON, and the catalogue's files unread. */
export interface SiteFiles {
  readonly catalogue: CatalogueFiles
  readonly policy: unknown
  readonly texts: Texts
  /** English, for the record that machines read; `texts` where those are English. */
  readonly recordTexts?: Texts
  readonly words: Words
  readonly prompts: Prompts
  readonly phrases: PhraseBook
  readonly betweenPhrases: BetweenPhraseBook
  readonly demo: unknown
  readonly bench: unknown
}

/** Joins the data files. Throws an Error that names the first fault of the catalogue or of the note's wording. */
export function readSite(files: SiteFiles): SiteData {
  const policy = files.policy as Policy
  const tables = siteCatalogue(files.catalogue, files.texts)
  return {
    ...tables,
    shippedCatalogue: tables.catalogue,
    shippedLaboratories: tables.laboratories,
    defaultPolicy: policy,
    policy,
    fillCorrections: [],
    recordSystems: NO_SITE_SYSTEMS,
    texts: checked(files.texts),
    recordTexts: checked(files.recordTexts ?? files.texts),
    words: files.words,
    prompts: files.prompts,
    phrases: files.phrases,
    betweenPhrases: files.betweenPhrases,
    demo: files.demo as Demo,
    bench: files.bench as BenchRules,
  }
}

const checked = (texts: Texts): Texts => ({ ...texts, note: readNoteTemplate(texts.note) })
