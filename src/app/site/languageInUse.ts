import { isLanguage, type Language } from '../../core/basics/language.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import { parseJson } from '../../core/text/parseJson.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'
import { DEFAULT_SETTINGS, SETTINGS_KEY } from './settings.ts'

/** Which language this device speaks at present; the setting may say another one for after the draw. */
const IN_USE_KEY = 'languageInUse'

/**
 * The language that a page which is loaded now speaks: that of the settings, but while a draw is under way on this
 * device the one in which it began. What does not read is as at first. Never rejects: why a disk refuses is told by
 * whoever reads the settings, and a device that can keep no note of it still shows its records.
 * @param isDrawing whether a draw is under way, on any page
 */
export async function languageInUse(
  store: Pick<SettingsStore, 'read' | 'write'>,
  isDrawing: () => Promise<boolean>,
): Promise<Language> {
  const noted = await store.read(IN_USE_KEY).catch(() => undefined)
  const inUse = isLanguage(noted) ? noted : undefined
  const set = await store
    .read(SETTINGS_KEY)
    .then(languageOf, () => inUse ?? DEFAULT_SETTINGS.language)
  if (set === inUse) return set
  if (inUse && (await isDrawing().catch(() => true))) return inUse
  await store.write(IN_USE_KEY, set).catch(() => undefined)
  return set
}

function languageOf(settings: string | undefined): Language {
  const read = settings === undefined ? undefined : parseJson(settings)
  const language = read?.ok && isRecord(read.value) ? read.value['language'] : undefined
  return isLanguage(language) ? language : DEFAULT_SETTINGS.language
}
