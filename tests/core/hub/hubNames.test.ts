import { describe, expect, it } from 'vitest'
import { isHubKey, isHubName } from '../../../src/core/hub/hubNames.ts'

describe('names at a hub', () => {
  it('are any text that is whole and not too long', () => {
    for (const name of ['a', 'draw-KM47-20261127-0001', 'Ä .*>', '🩸', 'x'.repeat(100)]) {
      expect(isHubName(name), name).toBe(true)
    }
    for (const name of ['', 'x'.repeat(101), '\ud83e', 'a\udc00']) {
      expect(isHubName(name)).toBe(false)
    }
  })

  it('make keys of two to four parts', () => {
    for (const key of ['claim/L1', 'site/catalog/1', 'a/b/c/d'])
      expect(isHubKey(key), key).toBe(true)
    for (const key of ['claim', 'claim/', '/L1', 'a//b', 'a/b/c/d/e']) {
      expect(isHubKey(key), key).toBe(false)
    }
  })
})
