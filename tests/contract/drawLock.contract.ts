import { describe, expect, it } from 'vitest'
import type { DrawLock } from '../../src/ports/drawLock.ts'

/** What every lock on draws must do. `pages` gives the lock as seen by so many pages of one browser. */
export function drawLockContract(
  name: string,
  pages: () => Promise<readonly [DrawLock, DrawLock]>,
  settle: () => Promise<void> = () => Promise.resolve(),
): void {
  describe(`${name} as a lock on draws`, () => {
    it('lets one page hold a draw', async () => {
      const [first, second] = await pages()
      expect(await first.hold('a', () => undefined)).toBeDefined()
      expect(await second.hold('a', () => undefined)).toBeUndefined()
      expect(await second.hold('b', () => undefined)).toBeDefined()
    })

    it('lets one of two pages hold it that ask in one moment', async () => {
      const both = await pages()
      const held = await Promise.all(both.map((page) => page.hold('c', () => undefined)))
      expect(held.filter((each) => each !== undefined)).toHaveLength(1)
    })

    it('gives it to the next page once it is released', async () => {
      const [first, second] = await pages()
      const held = await first.hold('d', () => undefined)
      held?.release()
      await settle()
      expect(await second.hold('d', () => undefined)).toBeDefined()
    })

    it('may be taken by an act, and the page that had it is told once', async () => {
      const [first, second] = await pages()
      let lost = 0
      const before = await first.hold('e', () => void lost++)
      await second.take('e', () => undefined)
      await settle()
      expect(lost).toBe(1)
      before?.release()
      await settle()
      expect(await first.hold('e', () => undefined)).toBeUndefined()
      expect(lost).toBe(1)
    })

    it('may be taken when nobody has it', async () => {
      const [first, second] = await pages()
      await first.take('f', () => undefined)
      expect(await second.hold('f', () => undefined)).toBeUndefined()
    })

    it('tells nothing to a page that released it itself', async () => {
      const [first, second] = await pages()
      let lost = 0
      const held = await first.hold('g', () => void lost++)
      held?.release()
      await settle()
      await second.take('g', () => undefined)
      await settle()
      expect(lost).toBe(0)
    })
  })
}
