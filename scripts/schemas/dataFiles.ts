import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { GenericSchema } from 'valibot'
import { BLOOD_LIMITS_SCHEMA, CATALOGUE_SCHEMA, LABORATORIES_SCHEMA, NORMS_SCHEMA, ORDER_SCHEMA, PREFERENCES_SCHEMA, SEARCH_SCHEMA, SERIES_SCHEMA } from '../../src/app/site/catalogue/schemas.ts' // prettier-ignore
import { RECORD_SYSTEMS_SCHEMA } from '../../src/app/site/recordSystems.ts'
import { HAND_OVER_LIMITS_SCHEMA } from '../../src/app/site/handOverLimits.ts'
import { LISTENING_LIMITS_SCHEMA } from '../../src/app/site/listeningLimits.ts'
import { RECORD_SERVER_SCHEMA } from '../../src/app/site/recordServerFile.ts'
import { HANDLING } from '../../src/core/catalogue/handling.ts'
import { CLOCK_KINDS } from '../../src/core/protocol/clockTable.ts'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../src/core/protocol/commands.ts'
import { FLAGS } from '../../src/core/protocol/events.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import { ASKS } from '../../src/core/protocol/asks.ts'
import { IMPOSSIBLE } from '../../src/core/protocol/impossible.ts'
import { STEP_IDS } from '../../src/core/protocol/steps.ts'
import { BENCH_SCHEMA } from './benchSchema.ts'
import { DEMO_SCHEMA } from './demoSchema.ts'
import { MANIFEST_SCHEMA } from './manifestSchema.ts'
import { NOTE_PARTS, NOTE_SCHEMA } from './noteSchema.ts'
import { BETWEEN_PHRASES_SCHEMA, PHRASES_SCHEMA, WORDINGS } from './phrasesSchema.ts'
import { POLICY_SCHEMA } from './policySchema.ts'
import { PRACTICE_NAME, practiceSchema } from './practiceSchema.ts'
import { PROMPTS_SCHEMA, SPOKEN } from './promptsSchema.ts'
import { PLAIN_TEXT, textsLike, type TextRules } from './textsLike.ts'

/** A schema that is published as `src/data/schema/NAME.schema.json`. */
export interface DataSchema {
  readonly title: string
  readonly schema: GenericSchema
  /** Schemas within it that are written once and referred to. */
  readonly parts?: Readonly<Record<string, GenericSchema>>
  /**
   * Which file it is for, below `src/data`; for a file of texts the English one, though it may not
   * be there: English practice stands in the scripts. None for what a person brings.
   */
  readonly file?: string
}

export const DATA = join(import.meta.dirname, '..', '..', 'src', 'data')

const TEXT = { text: PLAIN_TEXT }

// prettier-ignore
const FIXED: Readonly<Record<string, DataSchema>> = {
  catalogue:   { title: 'Catalog of tests and tubes', schema: CATALOGUE_SCHEMA },
  norms:       { title: 'Values the planner assumes', schema: NORMS_SCHEMA, file: 'catalogue/norms.json' },
  preferences: { title: 'Tubes a site prefers for groups of tests', schema: PREFERENCES_SCHEMA, file: 'catalogue/preferences.json' },
  series:      { title: 'Orders that are drawn several times', schema: SERIES_SCHEMA, file: 'catalogue/series.json' },
  search:      { title: 'Words that tests are looked for by', schema: SEARCH_SCHEMA, file: 'catalogue/search.json' },
  laboratories: { title: 'Laboratories that specimens go to', schema: LABORATORIES_SCHEMA, file: 'catalogue/laboratories.json' },
  bloodLimits: { title: 'Blood volume limits', schema: BLOOD_LIMITS_SCHEMA, file: 'catalogue/bloodLimits.json' },
  order:       { title: 'An order for the planner', schema: ORDER_SCHEMA },
  manifest:    { title: 'What goes with a pack of specimens, for another machine', schema: MANIFEST_SCHEMA },
  policy:      { title: 'Times and counts of the protocol', schema: POLICY_SCHEMA, file: 'policy.json' },
  bench:       { title: 'How specimens are spun and kept', schema: BENCH_SCHEMA, file: 'catalogue/bench.json' },
  recordSystems: { title: 'How the record server of the site names what a record is about', schema: RECORD_SYSTEMS_SCHEMA },
  recordServerFile: { title: 'The record server of a site', schema: RECORD_SERVER_SCHEMA },
  handOverLimits: { title: 'How handing over to the record server waits', schema: HAND_OVER_LIMITS_SCHEMA, file: 'handOver.json' },
  listeningLimits: { title: 'By what a phrase is told from talk, and how the ears are held open', schema: LISTENING_LIMITS_SCHEMA, file: 'listening.json' },
  demo:        { title: 'The invented demonstration', schema: DEMO_SCHEMA, file: 'demo.json' },
  phrases:     { title: 'Phrases of one language', schema: PHRASES_SCHEMA, parts: { wordings: WORDINGS }, file: 'en/phrases.json' },
  betweenPhrases:  { title: 'Phrases between patients in one language', schema: BETWEEN_PHRASES_SCHEMA, parts: { wordings: WORDINGS }, file: 'en/betweenPhrases.json' },
  prompts:     { title: 'Spoken prompts of one language', schema: PROMPTS_SCHEMA, parts: { spoken: SPOKEN }, file: 'en/prompts.json' },
  practice:    { title: 'Practice scripts in one language', schema: practiceSchema(), parts: { practiceName: PRACTICE_NAME }, file: 'en/practice.json' },
  note:        { title: 'Wording of the chart note', schema: NOTE_SCHEMA, parts: NOTE_PARTS, file: 'en/note.json' },
}

/** What the code knows of text files; every other one is held to the shape of the English file alone. */
const TEXT_RULES: Readonly<Record<string, TextRules>> = {
  words: {
    keys: {
      '/steps': STEP_IDS,
      '/commands': [...PLAIN_COMMANDS, ...CHOICE_KEYS],
      '/exceptions': EXCEPTION_KINDS,
      '/flags': FLAGS,
      '/impossible': IMPOSSIBLE,
      '/asks': ASKS,
      '/answers': ASKS,
      '/clocks': CLOCK_KINDS,
      '/handling': HANDLING,
    },
    most: { '/steps/*/title': 40, '/exceptions/*/title': 40, '/exceptions/*/instruction': 90 },
  },
}

/** Every schema by its name. A new file of texts in `src/data/en` has one without being named here. */
export function dataSchemas(): Readonly<Record<string, DataSchema>> {
  const texts = readdirSync(join(DATA, 'en'))
    .filter((file) => file.endsWith('.json'))
    .map((file) => basename(file, '.json'))
    .filter((name) => !Object.values(FIXED).some(({ file }) => file === `en/${name}.json`))
  return {
    ...FIXED,
    ...Object.fromEntries(
      texts.map((name) => {
        const file = `en/${name}.json`
        const english: unknown = JSON.parse(readFileSync(join(DATA, file), 'utf8'))
        const schema = textsLike(english, TEXT_RULES[name])
        // Beside the schema of an order there is one of what is said of orders.
        const key = FIXED[name] ? `${name}Texts` : name
        return [key, { title: `Texts of one language: ${name}`, schema, parts: TEXT, file }]
      }),
    ),
  }
}
