import type { SlowKeyParameters } from '../../ports/vault.ts'
import { slowKeyNow } from './slowKey.ts'

/** Makes one slow key and answers with its bytes, or with the reason why not; the page ends the worker then. */
self.onmessage = ({ data }: MessageEvent<{ pin: string; parameters: SlowKeyParameters }>) => {
  try {
    self.postMessage({ key: slowKeyNow(data.pin, data.parameters) })
  } catch (error) {
    self.postMessage({ reason: String(error) })
  }
}
