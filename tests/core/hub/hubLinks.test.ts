import { describe, expect, it } from 'vitest'
import { BEHIND_UNTOLD } from '../../../src/core/hub/hubEntry.ts'
import { createHubLinks } from '../../../src/core/hub/hubLinks.ts'

describe('the links of a hub', () => {
  it('follow each log by itself', () => {
    const links = createHubLinks(0)
    expect(links.take({ log: 'a', sequence: 1, behind: 0 })).toBe('next')
    expect(links.take({ log: 'b', sequence: 2, behind: 0 })).toBe('next')
    expect(links.take({ log: 'a', sequence: 3, behind: 1 })).toBe('next')
    expect(links.take({ log: 'b', sequence: 4, behind: 2 })).toBe('next')
  })

  it('name a gap, and stay where they were', () => {
    const links = createHubLinks(0)
    expect(links.take({ log: 'a', sequence: 1, behind: 0 })).toBe('next')
    expect(links.take({ log: 'a', sequence: 5, behind: 3 })).toBe('gap')
    expect(links.take({ log: 'a', sequence: 3, behind: 1 })).toBe('next')
    expect(links.take({ log: 'a', sequence: 5, behind: 3 })).toBe('next')
    expect(links.take({ log: 'b', sequence: 7, behind: 6 })).toBe('gap')
  })

  it('go on over an entry that does not say what it follows', () => {
    const links = createHubLinks(0)
    expect(links.take({ log: 'a', sequence: 1, behind: 0 })).toBe('next')
    expect(links.take({ log: 'a', sequence: 2, behind: BEHIND_UNTOLD })).toBe('next')
    expect(links.take({ log: 'a', sequence: 3, behind: 2 })).toBe('next')
  })

  it('know what came twice', () => {
    const links = createHubLinks(10)
    expect(links.take({ log: 'a', sequence: 10, behind: 0 })).toBe('known')
    expect(links.take({ log: 'a', sequence: 11, behind: 4 })).toBe('next')
    expect(links.take({ log: 'a', sequence: 11, behind: 4 })).toBe('known')
    expect(links.take({ log: 'b', sequence: 13, behind: 12 })).toBe('gap')
  })
})
