/** Trusted Types (W3C) as far as they are used here; TypeScript's own library does not have them yet. */
interface PolicyFactory {
  createPolicy(name: 'default', rules: { createScriptURL(url: string): string | null }): unknown
}

/** Scripts that run beside the page: our own workers, the recognizer's, and the service worker. */
const WORKERS =
  /^(assets\/(timer|intake|slowKey)\.worker-[\w-]+\.js|vosk\/vosk\.worker\.js|sw\.js)$/

/**
 * Lets the browser start these scripts from their addresses and no others, where the page's policy requires Trusted
 * Types. Text never becomes markup or code: there is no rule for it.
 * @param browser the page's global object
 * @param base address of the folder the app is served from, with a slash at its end
 */
export function allowScripts(browser: object, base: string): void {
  const { trustedTypes } = browser as { readonly trustedTypes?: PolicyFactory }
  trustedTypes?.createPolicy('default', {
    createScriptURL: (url) => {
      // What is no address at all throws, and is not started either.
      const { href } = new URL(url, base)
      return href.startsWith(base) && WORKERS.test(href.slice(base.length)) ? href : null
    },
  })
}
