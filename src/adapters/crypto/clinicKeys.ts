import { createEmitter } from '../../core/basics/emitter.ts'
import { ClinicKeyError, type ClinicKeys } from '../../ports/clinicKeys.ts'
import type { SecretStore } from '../../ports/secretStore.ts'
import { StorageError } from '../../ports/storageFault.ts'
import { dataKeyOf, freshKeyBytes, sealText, unsealText } from './dataKey.ts'
import { fromHex, toHex } from './hex.ts'
import { nameOfKey, readKeyBook, readWrapped, type KeyBook } from './keyBook.ts'
import { ECDH_P256, unwrapText, wrapText } from './wrapKeys.ts'

/**
 * The clinic's keys over WebCrypto, in a browser or in Node. In use they are in a form that scripts cannot read out;
 * their bytes exist for the moment in which they are made, wrapped or read from where they are kept.
 */
export function createClinicKeys(secrets: SecretStore): ClinicKeys {
  const changes = createEmitter<void>()
  /** Keys as they are used, by name. A name says what the key is, so that one never has to be read twice. */
  const inUse = new Map<string, Promise<CryptoKey>>()

  const book = async (): Promise<KeyBook | undefined> => {
    const text = await kept(secrets.read('keys'))
    return text === undefined ? undefined : readKeyBook(text)
  }
  const change = async (next: (book: KeyBook) => KeyBook | undefined): Promise<KeyBook> => {
    const fresh = await newBook()
    const text = await kept(
      secrets.update('keys', (stored) => {
        const was = stored === undefined ? fresh : readKeyBook(stored)
        const is = next(was)
        return is ? JSON.stringify(is) : stored === undefined ? JSON.stringify(was) : undefined
      }),
    )
    changes.emit()
    return readKeyBook(text ?? '')
  }
  const keyOf = async (name: string): Promise<CryptoKey> => {
    if (secrets.isLocked()) {
      inUse.clear()
      throw new ClinicKeyError('locked', 'The vault is locked.')
    }
    const known = inUse.get(name)
    if (known) return known
    const bytes = (await book())?.keys.find((key) => nameOfKey(key) === name)
    if (!bytes) throw new ClinicKeyError('unknownKey', `This device does not have the key ${name}.`)
    const made = dataKeyOf(fromHex(bytes))
    inUse.set(name, made)
    return made
  }
  const add = async (keys: readonly string[]): Promise<void> => {
    await change((was) => {
      const fresh = keys.filter((key) => !was.keys.includes(key))
      return fresh.length === 0 ? undefined : { ...was, keys: [...was.keys, ...fresh] }
    })
  }
  const mint = async (): Promise<string> => {
    const key = toHex(freshKeyBytes().buffer)
    await add([key])
    return nameOfKey(key)
  }
  const use = async (name: string): Promise<void> => {
    await change((was) => {
      if (!was.keys.some((key) => nameOfKey(key) === name))
        throw new ClinicKeyError('unknownKey', `This device does not have the key ${name}.`)
      return was.current === name ? undefined : { ...was, current: name }
    })
  }

  return {
    current: async () => (await book())?.current,
    seal: async (context, text) => {
      const key = (await book())?.current
      if (key === undefined) throw new ClinicKeyError('none', 'This device belongs to no clinic.')
      return { key, sealed: await sealText(await keyOf(key), context, text) }
    },
    open: async (context, name, sealed) => {
      const key = await keyOf(name)
      return unsealText(key, context, sealed).catch((error: unknown) => {
        throw new ClinicKeyError('damaged', `What is sealed at ${context} does not open.`, error)
      })
    },
    identity: async () => (await book())?.publicKey ?? (await change(() => undefined)).publicKey,
    wrapFor: async (publicKey) => {
      const keys = (await book())?.keys ?? []
      if (keys.length === 0) throw new ClinicKeyError('none', 'This device has no key to wrap.')
      return wrapText(publicKey, JSON.stringify(keys)).catch((error: unknown) => {
        throw new ClinicKeyError('notForUs', 'That is no public key.', error)
      })
    },
    wrapText: (publicKey, text) =>
      wrapText(publicKey, text).catch((error: unknown) => {
        throw new ClinicKeyError('notForUs', 'That is no public key.', error)
      }),
    unwrapText: async (wrapped) => {
      const mine = await book()
      if (!mine) throw new ClinicKeyError('notForUs', 'This device has no key pair.')
      return unwrapped(mine, wrapped)
    },
    accept: async (wrapped) => {
      const mine = (await book()) ?? (await change(() => undefined))
      const keys = keysIn(await unwrapped(mine, wrapped))
      await add(keys)
      return keys.map(nameOfKey)
    },
    mint,
    use,
    rotate: async () => {
      const name = await mint()
      await use(name)
      return name
    },
    forget: async () => {
      await kept(secrets.clear())
      inUse.clear()
      changes.emit()
    },
    onChange: changes.observe,
  }
}

/** A key pair and no key of a clinic yet. */
async function newBook(): Promise<KeyBook> {
  const pair = await crypto.subtle.generateKey(ECDH_P256, true, ['deriveBits'])
  return {
    version: 1,
    publicKey: toHex(await crypto.subtle.exportKey('spki', pair.publicKey)),
    privateKey: toHex(await crypto.subtle.exportKey('pkcs8', pair.privateKey)),
    keys: [],
  }
}

async function unwrapped(
  { publicKey, privateKey }: KeyBook,
  wrapped: Parameters<typeof unwrapText>[2],
): Promise<string> {
  try {
    const bytes = fromHex(privateKey)
    const mine = await crypto.subtle.importKey('pkcs8', bytes, ECDH_P256, false, ['deriveBits'])
    return await unwrapText(mine, publicKey, wrapped)
  } catch (error) {
    throw new ClinicKeyError('notForUs', 'These keys were not wrapped for this device.', error)
  }
}

function keysIn(text: string): readonly string[] {
  try {
    return readWrapped(text)
  } catch (error) {
    throw new ClinicKeyError('notForUs', 'What was wrapped are no keys.', error)
  }
}

/** Faults of the place where secrets are kept, as the clinic's keys tell them. */
async function kept<T>(work: Promise<T>): Promise<T> {
  try {
    return await work
  } catch (error) {
    if (error instanceof ClinicKeyError) throw error
    const isLocked = error instanceof StorageError && error.fault === 'locked'
    throw new ClinicKeyError(isLocked ? 'locked' : 'storage', 'The keys cannot be kept.', error)
  }
}
