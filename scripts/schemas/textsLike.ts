import * as v from 'valibot'
import { isRecord } from '../../src/core/basics/isRecord.ts'

/** The plural forms that CLDR names. */
const PLURAL_FORMS = ['zero', 'one', 'two', 'few', 'many', 'other'] as const

/** What the code knows of a text file beyond the English file's own shape. A path is `/steps/*`; `*` is any key. */
export interface TextRules {
  /** The keys of the object at a path, from the code's own list. */
  readonly keys?: Readonly<Record<string, readonly string[]>>
  /** Most letters of the texts at a path. */
  readonly most?: Readonly<Record<string, number>>
}

/**
 * The schema of a text file of any language, from the English one: every key and no other, as many texts in each list,
 * and in each text the same `{names}`. Where the English text counts (`{n}`, or plural forms) a language may have its
 * own forms.
 */
export function textsLike(english: unknown, rules: TextRules = {}): TextsSchema {
  if (!isRecord(english)) throw new RangeError('A text file holds one object.')
  const { $schema: _link, language, ...texts } = english
  const all: Readonly<Record<string, v.GenericSchema>> = {
    ...SCHEMA_LINK,
    ...(language === undefined ? {} : { language: LANGUAGE }),
    ...entries(texts, '', rules),
  }
  return v.strictObject(all)
}

type TextsSchema = v.StrictObjectSchema<Readonly<Record<string, v.GenericSchema>>, undefined>

/** Where an editor finds the schema of the file. */
export const SCHEMA_LINK = { $schema: v.exactOptional(v.string()) }
/** A language as BCP 47 names it: `en`, `pt-BR`. */
export const LANGUAGE = v.pipe(v.string(), v.regex(/^[a-z]{2,3}(-[A-Za-z0-9]+)*$/))
/** A text in which nothing is filled. */
export const PLAIN_TEXT = v.pipe(
  v.string(),
  v.minLength(1),
  v.regex(/^(?![\s\S]*\{\w+\})/, 'There is nothing to fill in this text.'),
)

/** The names in braces of a text, each once. */
const namesIn = (text: string): readonly string[] => [
  ...new Set([...text.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '')),
]

/** A text that has all the names needed and none beyond those allowed. */
export function textWith(
  needed: readonly string[],
  allowed: readonly string[] = needed,
): v.GenericSchema<string> {
  if (allowed.length === 0) return PLAIN_TEXT
  const each = needed.map((name) => String.raw`(?=[\s\S]*\{${name}\})`).join('')
  const no = String.raw`(?![\s\S]*\{(?!(?:${allowed.join('|')})\})\w+\})`
  const names = allowed.map((name) => `{${name}}`).join(', ')
  return v.pipe(
    v.string(),
    v.minLength(1),
    v.regex(new RegExp(`^${each}${no}`), `The names in braces must be ${names}.`),
  )
}

function entries(
  texts: Readonly<Record<string, unknown>>,
  path: string,
  rules: TextRules,
): Readonly<Record<string, v.GenericSchema>> {
  const keys = matching(rules.keys, path || '/') ?? Object.keys(texts)
  // A key that the English file lacks is asked for like its neighbors.
  const [neighbor] = Object.values(texts)
  return Object.fromEntries(
    keys.map((key) => {
      const value = Object.hasOwn(texts, key) ? texts[key] : neighbor
      return [key, schemaOf(value, `${path}/${key}`, rules)]
    }),
  )
}

function schemaOf(value: unknown, path: string, rules: TextRules): v.GenericSchema {
  if (typeof value === 'string') {
    const most = matching(rules.most, path)
    if (value === '') return v.string()
    const one = textWith(namesIn(value))
    const text = most === undefined ? one : v.pipe(v.string(), one, v.maxLength(most))
    return namesIn(value).includes('n') ? v.union([text, pluralOf(namesIn(value))]) : text
  }
  if (Array.isArray(value)) {
    if (value.length === 0) return v.pipe(v.array(PLAIN_TEXT), v.length(0))
    return v.strictTuple(value.map((each, i) => schemaOf(each, `${path}/${i}`, rules)))
  }
  if (isPlural(value)) {
    const names = [...new Set(Object.values(value).flatMap(namesIn))]
    return v.union([textWith(names), pluralOf(names)])
  }
  if (isRecord(value)) return v.strictObject(entries(value, path, rules))
  return v.literal(value as boolean | number)
}

/** Forms of a language: `other` has every name; one thing may be named without its number. */
function pluralOf(names: readonly string[]): v.GenericSchema {
  const withoutNumber = names.filter((name) => name !== 'n')
  const form = v.exactOptional(textWith(withoutNumber, names))
  const { other: _always, ...forms } = Object.fromEntries(PLURAL_FORMS.map((name) => [name, form]))
  return v.strictObject({ ...forms, other: textWith(names) })
}

function isPlural(value: unknown): value is Readonly<Record<string, string>> {
  return (
    isRecord(value) &&
    typeof value['other'] === 'string' &&
    Object.keys(value).length > 1 &&
    Object.keys(value).every((key) => (PLURAL_FORMS as readonly string[]).includes(key))
  )
}

/** What a table of paths says of this one. */
function matching<T>(table: Readonly<Record<string, T>> | undefined, path: string): T | undefined {
  const parts = path.split('/')
  return Object.entries(table ?? {}).find(([pattern]) => {
    const wanted = pattern.split('/')
    return (
      wanted.length === parts.length && wanted.every((part, i) => part === '*' || part === parts[i])
    )
  })?.[1]
}
