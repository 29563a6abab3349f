import * as v from 'valibot'
import { parseJson } from '../../core/text/parseJson.ts'
import type { SettingsStore } from '../../ports/settingsStore.ts'

const KEY = 'handOver'
const SCHEMA = v.object({ onFor: v.exactOptional(v.string()), isPaused: v.boolean() })

/** What a person set of handing over on this device. Off until somebody switches it on. */
export interface HandOverSettings {
  /** The address that it was switched on for: another one has to be switched on anew. */
  readonly onFor?: string
  readonly isPaused: boolean
}

const OFF: HandOverSettings = { isPaused: false }

/** What does not read is off: nothing may leave because a disk has changed. */
export async function readHandOverSettings(store: SettingsStore): Promise<HandOverSettings> {
  const json = await store.read(KEY)
  const data = json === undefined ? undefined : parseJson(json)
  const read = v.safeParse(SCHEMA, data?.ok ? data.value : undefined)
  return read.success ? read.output : OFF
}

export const keepHandOverSettings = (
  store: SettingsStore,
  settings: HandOverSettings,
): Promise<void> => store.write(KEY, JSON.stringify(settings))
