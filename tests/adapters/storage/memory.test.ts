import { expect, it } from 'vitest'
import { memoryLogStore, memorySettingsStore } from '../../../src/adapters/storage/memory.ts'
import { logStoreContract } from '../../contract/logStore.contract.ts'

logStoreContract('memory', async () => memoryLogStore())

it('keeps settings', async () => {
  const settings = memorySettingsStore()
  expect(await settings.read('a')).toBeUndefined()
  await settings.write('a', '{"x":1}')
  expect(await settings.read('a')).toBe('{"x":1}')
})
