import * as v from 'valibot'
import { LIMIT_KEYS } from '../../src/core/policy/policy.ts'
import { FLAGS } from '../../src/core/protocol/events.ts'
import { EXCEPTION_KINDS } from '../../src/core/protocol/exceptions.ts'
import { NOTE_FIELD_NAMES } from '../../src/core/record/noteFieldNames.ts'
import { NOTE_SCOPES } from '../../src/core/record/noteTemplate.ts'
import english from '../../src/data/en/note.json' with { type: 'json' }
import { PLAIN_TEXT, textsLike, textWith } from './textsLike.ts'

const byKey = <S extends v.GenericSchema>(keys: readonly string[], schema: S) =>
  v.strictObject(Object.fromEntries(keys.map((key) => [key, schema])))

const fieldTexts = Object.fromEntries(
  NOTE_SCOPES.map((scope) => [`${scope}Text`, textWith([], NOTE_FIELD_NAMES[scope])]),
)

/** Written once in the schema and referred to. */
export const NOTE_PARTS = { text: PLAIN_TEXT, ...fieldTexts }

/** A section may name the fields of what it is repeated for, and a site may arrange sections as it likes. */
const section = v.variant(
  'each',
  NOTE_SCOPES.map((scope) => {
    const text = fieldTexts[`${scope}Text`] ?? PLAIN_TEXT
    return v.strictObject({
      title: text,
      each: v.literal(scope),
      whenNone: v.exactOptional(PLAIN_TEXT),
      lines: v.array(
        v.strictObject({ label: text, value: text, optional: v.exactOptional(v.boolean()) }),
      ),
    })
  }),
)

const {
  sections: _sections,
  flags: _flags,
  exceptions: _exceptions,
  limits: _limits,
  ...rest
} = english

/** The wording of the chart note. */
export const NOTE_SCHEMA = v.strictObject({
  ...textsLike(rest).entries,
  sections: v.pipe(v.array(section), v.minLength(1)),
  flags: byKey(FLAGS, PLAIN_TEXT),
  exceptions: byKey(EXCEPTION_KINDS, PLAIN_TEXT),
  limits: byKey(LIMIT_KEYS, PLAIN_TEXT),
})
