import type { Text } from '../../core/basics/fillText.ts'
import type english from '../../data/en/screens.json'

/**
 * Every text of the screens, `screens.json` of a language. The English file says which there are; a text that is asked
 * for by the id of a thing does not compile while that id has none.
 */
export type ScreenTexts = TextsOf<typeof english>

/** The same texts in any language: where English counts, another language has its own plural forms. */
export type TextsOf<T> = T extends string
  ? string
  : T extends { readonly other: string; readonly one: string }
    ? Text
    : { readonly [K in keyof T]: TextsOf<T[K]> }
