import { isLanguage, type Language } from './language.ts'
import { shownLanguage } from './locale.ts'
import { shownNumber } from './shownNumber.ts'

/** What may stand in the place of `{name}` in a text. Numbers get the decimal sign of the language: round before. */
export type TextValues = Readonly<Record<string, string | number>>

/** A text of a language file: one wording, or one for each plural form the language has. */
export type Text = string | PluralText

/** Wordings by plural form as CLDR names them; `other` is the one that always exists. `{n}` decides. */
export interface PluralText {
  readonly zero?: string
  readonly one?: string
  readonly two?: string
  readonly few?: string
  readonly many?: string
  readonly other: string
}

/**
 * Puts the values into a text of a language file: `Needs {least_mL} mL` with `{ least_mL: 2.4 }`.
 * A plural text is chosen by the value `n` under the language's own rules (Unicode CLDR, through Intl.PluralRules).
 * A name without a value stays as it stands, so that a slip is seen and nothing is invented; the tests look for it.
 */
export function fillText(
  text: Text,
  values: TextValues = {},
  language: string = shownLanguage(),
): string {
  const wording = typeof text === 'string' ? text : pluralOf(text, values.n, language)
  return wording.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = Object.hasOwn(values, name) ? values[name] : undefined
    if (value === undefined) return whole
    return typeof value === 'number' ? shownNumber(value, undefined, ofText(language)) : value
  })
}

/** Our own language whose text it is: `en` for a text of `en-US`. */
function ofText(language: string): Language {
  const [main] = language.split('-')
  return isLanguage(main) ? main : shownLanguage()
}

function pluralOf(text: PluralText, n: string | number | undefined, language: string): string {
  const form = new Intl.PluralRules(language).select(Number(n))
  return text[form] ?? text.other
}
