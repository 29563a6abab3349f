import type { SettingsStore } from '../../ports/settingsStore.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import type { Texts } from './texts.ts'
import type { Prompts, Words } from './words.ts'

/** Of the screens, the note, the labels and what is spoken; phrases that are heard are English in all of them. */
export const LANGUAGES = ['en', 'es'] as const
export type Language = (typeof LANGUAGES)[number]

/** What is said in one language. */
export interface LanguageFiles {
  readonly texts: Texts
  readonly words: Words
  readonly prompts: Prompts
}

/** Where what is set on this device is kept. */
export const SETTINGS_KEY = 'settings'

/** Voices that have recorded the prompts of a language; the first speaks where none of them was chosen. */
export const VOICES_OF = {
  en: ['af_heart', 'am_michael'],
  es: ['ef_dora'],
} as const satisfies Readonly<Record<Language, readonly [string, ...string[]]>>

export const isLanguage = (value: unknown): value is Language =>
  LANGUAGES.some((each) => each === value)

/** The voice that speaks: nobody is to hear the words of another language than stands on the screen. */
export function voiceOf(language: Language, chosen: string): string {
  const voices: readonly [string, ...string[]] = VOICES_OF[language]
  return voices.includes(chosen) ? chosen : voices[0]
}

/** The language that was chosen on this device, before anything is shown; English where that cannot be told. */
export async function readLanguage(store: Pick<SettingsStore, 'read'>): Promise<Language> {
  // Why it cannot be read is told by whoever reads the settings.
  const json = await store.read(SETTINGS_KEY).catch(() => undefined)
  const read = json === undefined ? undefined : parseJson(json)
  const language = read?.ok && isRecord(read.value) ? read.value['language'] : undefined
  return isLanguage(language) ? language : 'en'
}
