import { createTurns } from '../../../core/basics/turns.ts'
import {
  keepSharedSite,
  readSharedSite,
  SHARED_KINDS,
  type SharedKind,
  type SharedPart,
} from './sharedSite.ts'
import type { VerifySignature } from '../../../core/log/exportFile.ts'
import type { Sha256 } from '../../../core/log/seal.ts'
import type { KeyValue } from '../../../ports/hub.ts'
import type { SettingsStore } from '../../../ports/settingsStore.ts'
import type { RosterBook } from '../rosterBook.ts'
import { checkDeskValue, putDeskValue, SITE, type DeskSigner } from './deskValues.ts'

/** Where something that the whole clinic uses stands. */
export const sharedPlace = (what: SharedKind): string => `${SITE}/shared/${what}`

const kindAt = (key: string): SharedKind | undefined =>
  SHARED_KINDS.find((what) => sharedPlace(what) === key)

/** Whether something under this key is for every device. */
export const isShared = (key: string): boolean => kindAt(key) !== undefined

/** What a person sees of it. */
export interface SharedView {
  readonly what: SharedKind
  readonly edition: number
  readonly by: string
  /** It comes into use with the next start between two draws. */
  readonly isWaiting: boolean
  /** This device has another one of its own by now. A stock is counted on by each and never tells. */
  readonly isChanged: boolean
}

/** `stale`: another desk gave something that is not in use here. */
export type Shared = 'shared' | 'stale'

/** The catalog, limits, laboratories and stock that a clinic has in common. */
export interface SiteSharing {
  /** @returns whether nothing is left to do with it; a desk may still have to become known */
  take(value: KeyValue): Promise<boolean>
  /**
   * Gives what this desk uses to every device, as a new edition of each: a device that has changed something for itself
   * gets it too. Rejects as the hub and the store do; what was given stays given.
   */
  share(signer: DeskSigner): Promise<Shared>
  /** What came of the desks was read; called at the beginning. */
  load(): Promise<void>
  view(): readonly SharedView[]
}

export interface SharingDeps {
  readonly store: SettingsStore
  readonly clinic: string
  readonly book: Pick<RosterBook, 'roster'>
  readonly verify: VerifySignature
  readonly sha256: Sha256
}

export function createSiteSharing(deps: SharingDeps): SiteSharing {
  const { store, clinic, book, verify, sha256 } = deps
  let parts: readonly SharedPart[] = []
  let changed: ReadonlySet<SharedKind> = new Set()
  const inTurn = createTurns()

  async function read(): Promise<void> {
    const kept = await readSharedSite(store)
    // What another clinic gave counts from 1 as well.
    parts = kept?.clinic === clinic ? kept.parts : []
    await compare()
  }
  async function compare(): Promise<void> {
    const next = new Set<SharedKind>()
    for (const { what, digest, waiting } of parts) {
      if (what === 'stock' || digest === undefined || waiting !== undefined) continue
      if (sha256(await textInUse(what)) !== digest) next.add(what)
    }
    changed = next
  }
  async function note(part: SharedPart): Promise<void> {
    const next = [...parts.filter(({ what }) => what !== part.what), part]
    await keepSharedSite(store, { clinic, parts: next })
    parts = next
    await compare()
  }
  const editionOf = (what: SharedKind): number =>
    parts.find((part) => part.what === what)?.edition ?? 0
  const textInUse = async (what: SharedKind): Promise<string> => (await store.read(what)) ?? ''

  return {
    load: () => inTurn(read),
    take: (value) =>
      inTurn(async () => {
        const what = kindAt(value.key)
        if (!what) return true
        const said = await checkDeskValue(value, book.roster(), verify)
        if (typeof said === 'string') return false
        // Another page may have taken it, or one that is newer than what a hub from an old copy says.
        await read()
        const { edition, by, body } = said
        if (edition <= editionOf(what)) return true
        const isInUse = body === (await textInUse(what))
        const digest = sha256(body)
        await note({ what, edition, by, digest, ...(!isInUse && { waiting: body }) })
        return true
      }),
    share: (signer) =>
      inTurn(async () => {
        await read()
        if (parts.some(({ waiting }) => waiting !== undefined)) return 'stale'
        for (const what of SHARED_KINDS) {
          const text = await textInUse(what)
          const put = await putDeskValue(signer, sharedPlace(what), text, editionOf(what))
          if (put.kind === 'stale') return 'stale'
          await note({ what, edition: put.edition, by: signer.device, digest: sha256(text) })
        }
        return 'shared'
      }),
    view: () =>
      parts.map(({ what, edition, by, waiting }) => ({
        ...{ what, edition, by },
        isWaiting: waiting !== undefined,
        isChanged: changed.has(what),
      })),
  }
}
