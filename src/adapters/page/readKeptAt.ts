import { isRecord } from '../../core/basics/isRecord.ts'

/** An address on this machine, since only such a server tells. */
const OWN = /^http:\/\/localhost(:\d{1,5})?\/$/

/**
 * What the server beside the app says of where its records are kept. A server that does not know, or none at all, says
 * nothing.
 */
export async function readKeptAt(url: string): Promise<string | undefined> {
  if (new URL(url).hostname !== 'localhost') return undefined
  try {
    const answer = await fetch(url)
    const said: unknown = answer.ok ? await answer.json() : undefined
    const kept = isRecord(said) ? said.keptAt : undefined
    return typeof kept === 'string' && OWN.test(kept) && !url.startsWith(kept) ? kept : undefined
  } catch {
    return undefined
  }
}
