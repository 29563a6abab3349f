import type { OtherPages } from '../../ports/otherPages.ts'

/**
 * Tells the pages of one browser of each other.
 * @param open makes a `BroadcastChannel`; absent where the browser has none, and then nobody hears anything
 */
export function createOtherPages(
  open: ((name: string) => BroadcastChannel) | undefined,
  name: string,
): OtherPages {
  const channel = open?.(`stillhand-${name}`)
  return {
    tell: () => channel?.postMessage('changed'),
    onTold: (observer) => channel?.addEventListener('message', observer),
  }
}
