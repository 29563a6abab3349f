import * as v from 'valibot'
import { ADDITIVES } from '../../src/core/catalogue/additives.ts'
import { FLAGS } from '../../src/core/protocol/events.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import { ASKS } from '../../src/core/protocol/asks.ts'
import { STEP_IDS } from '../../src/core/protocol/steps.ts'
import english from '../../src/data/en/prompts.json' with { type: 'json' }
import { ALARMING, SILENT_EXCEPTIONS, SILENT_FLAGS } from '../../src/app/site/words.ts'
import { LANGUAGE, PLAIN_TEXT, SCHEMA_LINK } from './textsLike.ts'

const SILENT: readonly string[] = [...SILENT_FLAGS, ...SILENT_EXCEPTIONS]
const isSilent = (what: string): boolean => SILENT.includes(what)

/** Prompts whose keys follow from a list of the code; cues, lengths of time and the app's own do not. */
const LISTED = [
  ...STEP_IDS.map((id) => `step.${id}`),
  ...ADDITIVES.map((additive) => `tube.${additive}`),
  ...EXCEPTION_KINDS.filter((kind) => !isSilent(kind)).map((kind) => `exception.${kind}`),
  ...FLAGS.filter((flag) => !isSilent(flag)).map((flag) => `flag.${flag}`),
  ...ASKS.map((ask) => `ask.${ask}`),
  ...ALARMING.map((key) => `discreet.${key}`),
]
const FREE = Object.keys(english.prompts).filter((key) =>
  /^(day|pack|mix|handle|off|cue|clock|app|time|series|bench|flash|pull|set|handled|sharps)\./.test(
    key,
  ),
)

/** What can be said in three seconds; the recordings are measured by a test of their own. */
export const SPOKEN = v.pipe(PLAIN_TEXT, v.minLength(2), v.maxLength(50))

/**
 * The spoken prompts of one language. `shown`: what stands on the screen where a prompt is spelled for the voice;
 * `unrecorded`: those that nobody has recorded yet.
 */
export const PROMPTS_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  language: LANGUAGE,
  prompts: v.strictObject(Object.fromEntries([...LISTED, ...FREE].map((key) => [key, SPOKEN]))),
  unrecorded: v.exactOptional(v.array(v.picklist([...LISTED, ...FREE]))),
  shown: v.exactOptional(v.record(v.picklist([...LISTED, ...FREE]), SPOKEN)),
})
