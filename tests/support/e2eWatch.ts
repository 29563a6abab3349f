import type { BrowserContext, Page } from 'playwright-core'

interface WatchWindow extends Window {
  stillhandViolation?: (text: string) => void
}

/** The recognizer's engine writes its progress to the error stream; only its warnings and errors count. */
const ENGINE_CHATTER = /^LOG \(VoskAPI:/

/**
 * Collects everything that must not happen: breaches of the content policy, uncaught errors, errors on the console,
 * and requests to anywhere but the app's own origin.
 */
export async function watch(context: BrowserContext, baseUrl: string): Promise<readonly string[]> {
  const faults: string[] = []
  await context.exposeFunction('stillhandViolation', (text: string) => void faults.push(text))
  await context.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      const { violatedDirective, blockedURI, sourceFile, lineNumber } = event
      const place = `${sourceFile}:${String(lineNumber)}`
      ;(window as WatchWindow).stillhandViolation?.(
        `policy: ${violatedDirective} ${blockedURI} at ${place}`,
      )
    })
  })
  const look = (page: Page): void => {
    page.on('pageerror', (error) => faults.push(`uncaught: ${error.message}`))
    page.on('console', (message) => {
      if (message.type() === 'error' && !ENGINE_CHATTER.test(message.text()))
        faults.push(`console: ${message.text()}`)
    })
  }
  context.pages().forEach(look)
  context.on('page', look)
  context.on('request', (request) => {
    const url = new URL(request.url())
    const own = url.origin === baseUrl || url.protocol === 'data:' || url.protocol === 'blob:'
    if (!own) faults.push(`request elsewhere: ${request.url()}`)
  })
  return faults
}
