import { describe, expect, it } from 'vitest'
import { createWebDrawLock } from '../../../src/adapters/lock/webDrawLock.ts'
import { drawLockContract } from '../../contract/drawLock.contract.ts'
import { fakeLockManager } from '../../support/fakeLockManager.ts'

drawLockContract(
  'Web Locks',
  async () => {
    const locks = fakeLockManager()
    return [createWebDrawLock(locks), createWebDrawLock(locks)]
  },
  () => new Promise((done) => setTimeout(done)),
)

describe('a browser without locks', () => {
  it.each([
    ['that knows none', undefined],
    ['that refuses', { request: () => Promise.reject(new Error('not here')) }],
  ])('%s lets every page hold every draw', async (_name, locks) => {
    const lock = createWebDrawLock(locks as unknown as LockManager | undefined)
    expect(await lock.hold('a', () => undefined)).toBeDefined()
    expect(await lock.hold('a', () => undefined)).toBeDefined()
    expect(await lock.take('a', () => undefined)).toBeDefined()
  })
})
