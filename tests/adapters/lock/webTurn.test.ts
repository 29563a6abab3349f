import { describe, expect, it, vi } from 'vitest'
import { createWebTurn } from '../../../src/adapters/lock/webTurn.ts'

/** Exclusive Web Locks with their queue, after the algorithms of the W3C Web Locks API; a page can be closed. */
function lockQueue() {
  interface Waiting {
    readonly page: string
    readonly granted: () => unknown
  }
  const queues = new Map<string, Waiting[]>()
  const grant = (name: string): void => void queues.get(name)?.[0]?.granted()
  return {
    of: (page: string): LockManager => ({
      query: () => Promise.resolve({}),
      request: ((name: string, granted: () => unknown) => {
        const queue = queues.get(name) ?? []
        queues.set(name, queue)
        queue.push({ page, granted })
        if (queue.length === 1) grant(name)
        return new Promise(() => undefined)
      }) as LockManager['request'],
    }),
    /** What the page held or waited for is free. */
    close(page: string): void {
      for (const [name, queue] of queues) {
        const wasFirst = queue[0]?.page === page
        queues.set(
          name,
          queue.filter((each) => each.page !== page),
        )
        if (wasFirst) grant(name)
      }
    },
  }
}

describe('a turn over several pages', () => {
  it('is one page’s, and comes to the next when that one is closed', () => {
    const locks = lockQueue()
    const [a, b, c] = ['a', 'b', 'c'].map((page) => createWebTurn(locks.of(page), 'hub'))
    const came: string[] = []
    a?.ask(() => came.push('a'))
    b?.ask(() => came.push('b'))
    c?.ask(() => came.push('c'))
    expect([a?.isOurs(), b?.isOurs(), c?.isOurs(), came]).toEqual([true, false, false, ['a']])
    // One that waits goes without a trace.
    locks.close('b')
    expect(came).toEqual(['a'])
    locks.close('a')
    expect([c?.isOurs(), came]).toEqual([true, ['a', 'c']])
  })

  it('is nobody’s before it is asked for', () => {
    expect(createWebTurn(lockQueue().of('a'), 'hub').isOurs()).toBe(false)
  })

  it('of another name is another turn', () => {
    const locks = lockQueue()
    const turns = ['hub', 'other'].map((name) => createWebTurn(locks.of(name), name))
    for (const turn of turns) turn.ask(() => undefined)
    expect(turns.map((turn) => turn.isOurs())).toEqual([true, true])
  })

  it('asked for twice comes once', () => {
    const locks = lockQueue()
    const turn = createWebTurn(locks.of('a'), 'hub')
    const onOurs = vi.fn()
    turn.ask(onOurs)
    turn.ask(onOurs)
    locks.close('b')
    expect(onOurs).toHaveBeenCalledTimes(1)
  })

  it.each([
    ['that knows no locks', undefined],
    ['that refuses them', { request: () => Promise.reject(new Error('not here')) }],
  ])(
    'in a browser %s is every page’s: twice sent is harmless, not sent is not',
    async (_, locks) => {
      const given = locks as unknown as LockManager | undefined
      const pages = [createWebTurn(given, 'hub'), createWebTurn(given, 'hub')]
      const onOurs = vi.fn()
      for (const page of pages) page.ask(onOurs)
      await vi.waitFor(() => expect(pages.map((page) => page.isOurs())).toEqual([true, true]))
      expect(onOurs).toHaveBeenCalledTimes(2)
    },
  )
})
