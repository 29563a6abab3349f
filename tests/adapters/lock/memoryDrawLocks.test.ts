import { createMemoryDrawLocks } from '../../../src/adapters/lock/memoryDrawLocks.ts'
import { drawLockContract } from '../../contract/drawLock.contract.ts'

drawLockContract('memory', async () => {
  const page = createMemoryDrawLocks()
  return [page(), page()]
})
