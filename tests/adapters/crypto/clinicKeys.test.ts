import 'fake-indexeddb/auto'
import { describe, expect, it } from 'vitest'
import { createClinicKeys } from '../../../src/adapters/crypto/clinicKeys.ts'
import {
  createBrowserSecretRows,
  createMemorySecretRows,
} from '../../../src/adapters/crypto/secretRows.ts'
import { createSecretStore } from '../../../src/adapters/crypto/secretStore.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { clinicKeysContract, keyFaultOf } from '../../contract/clinicKeys.contract.ts'
import { quickVault } from '../../support/vaults.ts'

const PIN = '482913'
let databases = 0
const clock = createSystemClock('boot')
const browserRows = () => createBrowserSecretRows(clock, `clinic-keys-${databases++}`)

clinicKeysContract('those in memory', async () =>
  createClinicKeys(createSecretStore(createMemorySecretRows(), quickVault())),
)
clinicKeysContract('those of a browser', async () =>
  createClinicKeys(createSecretStore(browserRows(), quickVault())),
)
clinicKeysContract('those behind a PIN', async () => {
  const vault = quickVault()
  await vault.setUp(PIN)
  return createClinicKeys(createSecretStore(browserRows(), vault))
})

describe('keys of a clinic', () => {
  it('are shut with the vault, also those in use, and open with it again', async () => {
    const vault = quickVault()
    await vault.setUp(PIN)
    const keys = createClinicKeys(createSecretStore(createMemorySecretRows(), vault))
    const name = await keys.rotate()
    const { key, sealed } = await keys.seal('c', 'text')
    vault.lock()
    expect(await keyFaultOf(keys.current())).toBe('locked')
    expect(await keyFaultOf(keys.open('c', key, sealed))).toBe('locked')
    expect(await keyFaultOf(keys.seal('c', 'text'))).toBe('locked')
    expect(await keyFaultOf(keys.identity())).toBe('locked')
    await vault.open(PIN)
    expect(await keys.open('c', key, sealed)).toBe('text')
    expect(await keys.current()).toBe(name)
  })

  it('are read by another page of the same browser', async () => {
    const vault = quickVault()
    const rows = browserRows()
    const [one, two] = [1, 2].map(() => createClinicKeys(createSecretStore(rows, vault)))
    if (!one || !two) throw new Error('Two pages')
    const [first, second] = await Promise.all([one.identity(), two.identity()])
    expect(first).toBe(second)
    const name = await one.rotate()
    const { key, sealed } = await two.seal('c', 'text')
    expect(key).toBe(name)
    expect(await one.open('c', key, sealed)).toBe('text')
  })

  it('tell of a place that refuses', async () => {
    const refusing = { ...createMemorySecretRows(), read: () => Promise.reject(new Error('No')) }
    const keys = createClinicKeys(createSecretStore(refusing, quickVault()))
    expect(await keyFaultOf(keys.current())).toBe('storage')
  })
})
