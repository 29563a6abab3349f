import { keyIdOf } from '../../core/log/trailer.ts'
import { readText } from '../../core/text/readText.ts'
import { textFaultSentence } from '../../core/text/textFaultSentence.ts'
import type { AppActions, KeysView } from '../appApi.ts'
import type { AppParts } from '../appDeps.ts'
import type { KnownKeys } from '../intake/intakeJobs.ts'
import { createKeyring, isPublicKey, type TrustedKey } from '../site/keyring.ts'

type KeyActions = Pick<AppActions, 'trustKey' | 'forgetKey'>

/** Whose keys are known here: this device's own, and those that the site has named. */
export function createKeyActions(parts: AppParts) {
  const { set, guarded, deviceKey, sha256, settingsStore } = parts
  const { log: texts, text: textTexts } = parts.site.texts
  const keyring = createKeyring(settingsStore)

  async function load(): Promise<KeysView> {
    const own = await guarded(texts.keys.ownUnread, () => deviceKey.identity())
    const kept = await guarded(texts.keys.unread, () => keyring.read())
    const trusted = kept.ok ? kept.value.value : []
    if (kept.ok && kept.value.faults.length > 0) set({ trouble: texts.keys.unread })
    const keys: KeysView = {
      own: own.ok ? own.value : undefined,
      trusted: trusted.map((key) => ({ ...key, keyId: keyIdOf(key.publicKey, sha256) })),
    }
    set({ keys })
    return keys
  }

  const change = async (change: (keys: readonly TrustedKey[]) => readonly TrustedKey[]) => {
    const done = await guarded(texts.keys.unkept, () => keyring.change(change))
    if (done.ok) await load()
  }

  async function trust(publicKey: string, name: string): Promise<void> {
    const plain = publicKey.replace(/\s/g, '').toLowerCase()
    const read = readText(name, 'name')
    if (!read.ok || read.value === '' || !isPublicKey(plain)) {
      const [fault] = read.ok ? [] : read.faults
      const why = isPublicKey(plain) ? texts.keys.nameMissing : texts.keys.notAKey
      set({ trouble: fault ? textFaultSentence(fault, texts.keys.nameField, textTexts) : why })
      return
    }
    const added: TrustedKey = { publicKey: plain, name: read.value, since: parts.today() }
    await change((keys) => [...keys.filter((key) => key.publicKey !== plain), added])
  }

  const actions: KeyActions = {
    trustKey: trust,
    forgetKey: (publicKey) => change((keys) => keys.filter((key) => key.publicKey !== publicKey)),
  }

  /** What is known of every key that is known. */
  async function known(): Promise<KnownKeys> {
    const { own, trusted } = await load()
    const named = trusted.map(({ publicKey, name }) => [publicKey, { kind: 'trusted', name }])
    return Object.fromEntries([
      ...named,
      ...(own ? [[own.publicKey, { kind: 'thisDevice' }]] : []),
    ]) as KnownKeys
  }

  return { actions, load, known, trust }
}
