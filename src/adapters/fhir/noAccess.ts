import { ok } from '../../core/basics/result.ts'
import type { ServerAccess } from '../../ports/serverAccess.ts'

/** For a server without a login. */
export const NO_ACCESS: ServerAccess = {
  headers: () => Promise.resolve(ok({})),
  forget: () => undefined,
}

/** The first of two that opens: a launch while there is one, else this device's own key. */
export function eitherAccess(first: ServerAccess, second: ServerAccess): ServerAccess {
  return {
    headers: async () => {
      const opened = await first.headers()
      return opened.ok ? opened : second.headers()
    },
    forget: () => {
      first.forget()
      second.forget()
    },
  }
}
