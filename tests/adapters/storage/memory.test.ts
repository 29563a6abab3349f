import { expect, it } from 'vitest'
import {
  createMemoryLogStore,
  createMemorySettingsStore,
} from '../../../src/adapters/storage/memory.ts'
import { logStoreContract } from '../../contract/logStore.contract.ts'
import { sha256 } from '../../support/sampleLog.ts'

logStoreContract('memory', async () => createMemoryLogStore(sha256))

it('keeps settings', async () => {
  const settings = createMemorySettingsStore()
  expect(await settings.read('a')).toBeUndefined()
  await settings.write('a', '{"x":1}')
  expect(await settings.read('a')).toBe('{"x":1}')
  await settings.update('a', (json) => `[${json}]`)
  expect(await settings.read('a')).toBe('[{"x":1}]')
})
