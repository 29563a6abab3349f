import type { BrowserContext } from 'playwright-core'

/**
 * The worker of the recognizer for a page to which nobody speaks: it answers as the engine does (vosk-browser 0.0.3,
 * vosk.interfaces) and hears nothing. The engine itself takes half a core as long as a page listens.
 */
const HEARS_NOTHING = `
self.onmessage = ({ data: { action, recognizerId } }) => {
  if (action === 'load') postMessage({ event: 'load', result: true })
  if (action === 'audioChunk')
    postMessage({ event: 'partialresult', recognizerId, result: { partial: '', partial_result: [] } })
  if (action === 'retrieveFinalResult')
    postMessage({ event: 'result', recognizerId, result: { text: '', result: [] } })
  if (action === 'terminate') close()
}
`

/** Serves that worker in the place of the engine's; everything else is as it is served. */
export async function useDeafEngine(context: BrowserContext): Promise<void> {
  await context.route('**/vosk/vosk.worker.js', async (route) =>
    route.fulfill({ response: await route.fetch(), body: HEARS_NOTHING }),
  )
}
