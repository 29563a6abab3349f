import type { BrowserContext, Page } from 'playwright-core'

/** What a recognizer made of the sound, as it left the engine's worker. */
export interface EngineText {
  readonly text: string
  readonly final: boolean
  readonly recognizer: string
  readonly at_ms: number
}

interface HearingWindow extends Window {
  stillhandTexts?: EngineText[]
}

/** Writes down every text of the real recognizer when it changes, so that a phrase that was not heard can be explained. */
export async function recordHearings(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const texts: EngineText[] = []
    ;(window as HearingWindow).stillhandTexts = texts
    const partials = new Map<string, string>()
    const note = ({ data }: MessageEvent<unknown>): void => {
      if (typeof data !== 'object' || data === null || !('result' in data)) return
      const { result, recognizerId } = data as {
        result: { partial?: string; text?: string }
        recognizerId?: string
      }
      const text = result?.text ?? result?.partial
      const recognizer = String(recognizerId)
      const final = result?.text !== undefined
      if (text === undefined || (!final && partials.get(recognizer) === text)) return
      partials.set(recognizer, final ? '' : text)
      texts.push({ text, final, recognizer, at_ms: Date.now() })
    }
    const PlainWorker = Worker
    window.Worker = class extends PlainWorker {
      constructor(url: string | URL, options?: WorkerOptions) {
        super(url, options)
        this.addEventListener('message', note)
      }
    }
  })
}

/** The texts since then, oldest first; final ones in full stops. */
export async function heardSince(
  page: Page,
  since_ms: number,
  until_ms = Infinity,
): Promise<readonly string[]> {
  const texts = await page.evaluate(() => (window as HearingWindow).stillhandTexts ?? [])
  return texts
    .filter(({ at_ms }) => at_ms >= since_ms && at_ms <= until_ms)
    .map(
      ({ text, final, at_ms, recognizer }) =>
        `${String(at_ms - since_ms)} ms ${recognizer.slice(0, 4)}: ${text}${final ? '.' : ' …'}`,
    )
}
