import { pinWait_ms } from '../../core/lock/pin.ts'
import { readRecovery, writeRecovery } from '../../core/lock/recoveryText.ts'
import type { Clock } from '../../ports/clock.ts'
import { StorageError } from '../../ports/storageFault.ts'
import type { Opening, Vault, VaultRecord, VaultStore } from '../../ports/vault.ts'
import {
  dataKeyOf,
  freshKeyBytes,
  recoveryBytes,
  sealText,
  unsealText,
  unwrapKey,
  wrapKey,
} from './dataKey.ts'
import { toHex } from './hex.ts'
import { newParameters, type SlowKey } from './slowKey.ts'

export interface VaultDeps {
  readonly clock: Clock
  readonly store: VaultStore
  readonly slowKey: SlowKey
}

type Bytes = Uint8Array<ArrayBuffer>

const BY_PIN = 'stillhand data key by PIN'
const BY_RECOVERY = 'stillhand data key by recovery key'

/**
 * The vault over WebCrypto. The data key is in this page only while it is open, in a form that scripts cannot read
 * out; its bytes exist for the moment in which they are wrapped or unwrapped.
 *
 * Waits after wrong PINs are measured by the clock that nobody can set, from the last try or the beginning of the
 * page, whichever is later: a reload never makes one shorter. The count is stored before a PIN is tried. A page that
 * finds that another one has tried begins its own wait anew, so that many pages try no faster than one.
 */
export function createVault({ clock, store, slowKey }: VaultDeps): Vault {
  let record: VaultRecord | undefined
  let key: CryptoKey | undefined
  let waitingSince_ms = clock.read().mono_ms

  const opened = (): CryptoKey => {
    if (!key) throw new StorageError('locked', 'The vault is locked.')
    return key
  }
  const wait_ms = (): number => {
    const over = waitingSince_ms + pinWait_ms(record?.wrong ?? 0)
    return Math.max(0, over - clock.read().mono_ms)
  }
  const byPin = async (bytes: Bytes, pin: string): Promise<Pick<VaultRecord, 'slow' | 'byPin'>> => {
    const slow = newParameters(crypto.getRandomValues(new Uint8Array(16)))
    return { slow, byPin: await wrapKey(bytes, await slowKey(pin, slow), BY_PIN) }
  }
  const byRecovery = async (
    bytes: Bytes,
  ): Promise<{ readonly text: string; readonly wrapped: VaultRecord['byRecovery'] }> => {
    const secret = crypto.getRandomValues(new Uint8Array(20))
    const salt = toHex(crypto.getRandomValues(new Uint8Array(16)).buffer)
    const wrapped = await wrapKey(bytes, await recoveryBytes(secret, salt), BY_RECOVERY)
    return { text: writeRecovery(secret), wrapped: { ...wrapped, salt } }
  }
  const change = async (part: Partial<VaultRecord>): Promise<void> => {
    record = await store.update((stored) => stored && { ...stored, ...part })
  }

  /** Counts the try before it is made; `undefined` when another page has tried since this one looked. */
  async function count(known: number): Promise<VaultRecord | undefined> {
    let isMine = false
    record = await store.update((stored) => {
      isMine = stored?.wrong === known
      return stored && isMine ? { ...stored, wrong: known + 1 } : undefined
    })
    return isMine ? record : undefined
  }

  /** The bytes of the data key for the right PIN, else why not. */
  async function unwrap(pin: string): Promise<Bytes | Opening> {
    if (wait_ms() > 0) return { kind: 'wait', wait_ms: wait_ms() }
    const mine = await count(record?.wrong ?? 0)
    waitingSince_ms = clock.read().mono_ms
    if (!mine) return wait_ms() > 0 ? { kind: 'wait', wait_ms: wait_ms() } : unwrap(pin)
    const bytes = await unwrapKey(mine.byPin, await slowKey(pin, mine.slow), BY_PIN)
    waitingSince_ms = clock.read().mono_ms
    if (!bytes) return { kind: 'wrong', wait_ms: wait_ms() }
    await change({ wrong: 0 })
    return bytes
  }

  return {
    load: async () => {
      const now = await store.read()
      // Whoever tried PINs on another page makes this one wait too.
      if ((now?.wrong ?? 0) > (record?.wrong ?? 0)) waitingSince_ms = clock.read().mono_ms
      // A key without its vault would seal what nobody could open again.
      if (!now || (record && !isSame(record, now))) key = undefined
      record = now
      return record ? 'locked' : 'none'
    },
    state: () => (key ? 'open' : record ? 'locked' : 'none'),
    setUp: async (pin) => {
      const bytes = freshKeyBytes()
      const recovery = await byRecovery(bytes)
      const pinned = await byPin(bytes, pin)
      const made: VaultRecord = {
        version: 1,
        ...pinned,
        byRecovery: recovery.wrapped,
        wrong: 0,
        isSealing: true,
      }
      record = await store.update((stored) => (stored ? undefined : made))
      if (record?.byPin.key !== made.byPin.key) throw new Error('A PIN is already set.')
      key = await dataKeyOf(bytes)
      return recovery.text
    },
    open: async (pin) => {
      const bytes = await unwrap(pin)
      if ('kind' in bytes) return bytes
      key = await dataKeyOf(bytes)
      return { kind: 'open' }
    },
    openByRecovery: async (typed, newPin) => {
      record = await store.read()
      const secret = readRecovery(typed)
      if (!record || !secret) return false
      const by = await recoveryBytes(secret, record.byRecovery.salt)
      const bytes = await unwrapKey(record.byRecovery, by, BY_RECOVERY)
      if (!bytes) return false
      await change({ ...(await byPin(bytes, newPin)), wrong: 0 })
      key = await dataKeyOf(bytes)
      return true
    },
    changePin: async (pin, newPin) => {
      const bytes = await unwrap(pin)
      if ('kind' in bytes) return bytes
      await change(await byPin(bytes, newPin))
      return { kind: 'open' }
    },
    renewRecovery: async (pin) => {
      const bytes = await unwrap(pin)
      if ('kind' in bytes) return bytes
      const { text, wrapped } = await byRecovery(bytes)
      await change({ byRecovery: wrapped })
      return { kind: 'open', recoveryKey: text }
    },
    turnOff: async (pin) => {
      const bytes = await unwrap(pin)
      if ('kind' in bytes) return bytes
      await change({ isUnsealing: true, isSealing: false })
      key = await dataKeyOf(bytes)
      return { kind: 'open' }
    },
    isUnsealing: () => record?.isUnsealing ?? false,
    lock: () => {
      key = undefined
    },
    wait_ms,
    isSealing: () => record?.isSealing ?? false,
    sealed: () => change({ isSealing: false }),
    seal: async (context, text) => sealText(opened(), context, text),
    unseal: async (context, sealed) => unsealText(opened(), context, sealed),
  }
}

/**
 * Of one data key: a new PIN, or a new recovery key, wraps it anew; a vault that was taken away and set up again has
 * both anew.
 */
const isSame = (before: VaultRecord, now: VaultRecord): boolean =>
  before.byPin.key === now.byPin.key || before.byRecovery.key === now.byRecovery.key
