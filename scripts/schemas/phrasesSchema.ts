import * as v from 'valibot'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../src/core/protocol/commands.ts'
import { BETWEEN_COMMANDS } from '../../src/core/voice/betweenCommands.ts'
import { UNSAID } from './unsaid.ts'
import { LANGUAGE, SCHEMA_LINK } from './textsLike.ts'

const COMMAND_KEYS = [...PLAIN_COMMANDS, ...CHOICE_KEYS]

/** Two words at least: one alone is found in any talk, and a patient's "no" is not the answer to our question. */
const wording = v.pipe(
  v.string(),
  v.regex(/^[a-z']+( [a-z']+)+$/, 'Write two words or more, in small letters only.'),
)
/** What stands for one command, the wording on the screen first. */
export const WORDINGS = v.pipe(
  v.array(wording),
  v.minLength(2),
  v.check((all) => new Set(all).size === all.length, 'No wording twice.'),
  v.metadata({ uniqueItems: true }),
)

/**
 * The phrases of one language: at least two wordings for every command; the first one stands on the screen. What is
 * not said before a patient has one neutral wording more, which stands there in discreet mode.
 */
export const PHRASES_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  language: LANGUAGE,
  phrases: v.strictObject(Object.fromEntries(COMMAND_KEYS.map((key) => [key, WORDINGS]))),
  discreet: v.strictObject(Object.fromEntries(UNSAID.map((key) => [key, wording]))),
})

/** The same for what is said between patients. */
export const BETWEEN_PHRASES_SCHEMA = v.strictObject({
  ...SCHEMA_LINK,
  language: LANGUAGE,
  phrases: v.strictObject(Object.fromEntries(BETWEEN_COMMANDS.map((key) => [key, WORDINGS]))),
})
