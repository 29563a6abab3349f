import { vi } from 'vitest'

/** What a page asks of its layout: jsdom has none. */
export function stubLayout(): void {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      unobserve() {}
      disconnect() {}
    },
  )
  vi.stubGlobal('scrollTo', () => undefined)
}
