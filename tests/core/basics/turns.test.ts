import { expect, it } from 'vitest'
import { createTurns } from '../../../src/core/basics/turns.ts'

it('work waits for what was asked for before it, and goes on behind what failed', async () => {
  const inTurn = createTurns()
  const done: string[] = []
  const slow = inTurn(async () => {
    await new Promise((later) => setTimeout(later, 5))
    done.push('slow')
    return 1
  })
  const failing = inTurn(() => Promise.reject(new Error('It fails.')))
  const last = inTurn(async () => void done.push('last'))
  await expect(failing).rejects.toThrow('It fails.')
  expect(await slow).toBe(1)
  await last
  expect(done).toEqual(['slow', 'last'])
})
