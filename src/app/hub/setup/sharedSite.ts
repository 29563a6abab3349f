import * as v from 'valibot'
import { parseJson } from '../../../core/text/parseJson.ts'
import type { SettingsStore } from '../../../ports/settingsStore.ts'

/** What desks give to every device of a clinic, each by the name under which a device keeps it. */
export const SHARED_KINDS = ['catalogue', 'policy', 'laboratories', 'stock'] as const
export type SharedKind = (typeof SHARED_KINDS)[number]

const SHARED_KEY = 'sharedSite'

const KEPT = v.object({
  clinic: v.string(),
  parts: v.array(
    v.object({
      what: v.picklist(SHARED_KINDS),
      edition: v.pipe(v.number(), v.integer(), v.minValue(1)),
      by: v.string(),
      waiting: v.optional(v.string()),
      digest: v.optional(v.string()),
    }),
  ),
})

/** The last edition of something that a desk gave. */
export interface SharedPart {
  readonly what: SharedKind
  readonly edition: number
  /** Id of the desk. */
  readonly by: string
  /** Its text, as long as it is not in use here. */
  readonly waiting?: string | undefined
  /** SHA-256 of its text: tells whether this device has changed it since. */
  readonly digest?: string | undefined
}

/** What came from the desks of one clinic. */
export interface SharedSite {
  readonly clinic: string
  readonly parts: readonly SharedPart[]
}

/** `undefined` where nothing came, or it cannot be read: the hub gives it again. */
export async function readSharedSite(
  store: Pick<SettingsStore, 'read'>,
): Promise<SharedSite | undefined> {
  const json = await store.read(SHARED_KEY)
  const data = json ? parseJson(json) : undefined
  const read = data?.ok ? v.safeParse(KEPT, data.value) : undefined
  return read?.success ? read.output : undefined
}

export const keepSharedSite = (
  store: Pick<SettingsStore, 'write'>,
  shared: SharedSite,
): Promise<void> => store.write(SHARED_KEY, JSON.stringify(shared))

/** Nothing is known of any clinic. What is in use stays in use. */
export const forgetSharedSite = (store: Pick<SettingsStore, 'write'>): Promise<void> =>
  store.write(SHARED_KEY, '')
