import type { Page } from '../../ports/page.ts'
import { readKeptAt } from './readKeptAt.ts'

/** How long a saved text stays at its address: the browser may begin to fetch it late. */
const KEPT_ms = 10_000

/** Presses not further apart than this are one. */
const DOUBLE_ms = 1000

/** The page in a browser. `address` makes a whole address of a path beside the page. */
export function createBrowserPage(address: (path: string) => string): Page {
  let printed_ms = -Infinity
  return {
    print: () => {
      // The second press of a double one comes at once, or as soon as the browser has asked.
      if (performance.now() - printed_ms < DOUBLE_ms) return
      printed_ms = performance.now()
      window.print()
      // The browser may have asked for long.
      printed_ms = performance.now()
    },
    async copyText(text) {
      try {
        await navigator.clipboard.writeText(text)
        return true
      } catch {
        return false
      }
    },
    saveText({ name, type, text }) {
      const blob = URL.createObjectURL(new Blob([text], { type }))
      const link = document.createElement('a')
      link.href = blob
      link.download = name
      link.click()
      setTimeout(() => URL.revokeObjectURL(blob), KEPT_ms)
    },
    async readText(path, most_B = Infinity) {
      const answer = await fetch(address(path))
      if (!answer.ok) throw new Error(`${path} is not there (${answer.status}).`)
      return most_B === Infinity ? answer.text() : beginningOf(answer, most_B)
    },
    onReturn(back) {
      addEventListener('online', back)
      document.addEventListener('resume', back)
      addEventListener('pageshow', (event) => {
        if (event.persisted) back()
      })
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'visible') back()
      })
    },
    onLeave(leave) {
      addEventListener('pagehide', leave)
      document.addEventListener('freeze', leave)
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'hidden') leave()
      })
    },
    onUse(use) {
      for (const name of ['pointerdown', 'keydown'] as const) {
        addEventListener(name, use, { capture: true, passive: true })
      }
    },
    async askToKeep() {
      try {
        return (await navigator.storage.persisted()) || (await navigator.storage.persist())
      } catch {
        return undefined
      }
    },
    askBeforeLeaving(condition) {
      addEventListener('beforeunload', (event) => {
        if (condition()) event.preventDefault()
      })
    },
    keptElsewhere: () => readKeptAt(address('kept-at.json')),
    startAnew: () => location.reload(),
  }
}

/** A text that may have no end: what is not wanted of it is never fetched. */
async function beginningOf({ body }: Response, most_B: number): Promise<string> {
  const reader = body?.getReader()
  const decoder = new TextDecoder()
  let text = ''
  for (let read_B = 0; reader && read_B < most_B;) {
    const { done, value } = await reader.read()
    if (done) return text + decoder.decode()
    read_B += value.length
    text += decoder.decode(value, { stream: true })
  }
  void reader?.cancel().catch(() => undefined)
  return text
}
