import { parseJson } from '../../core/text/parseJson.ts'
import { isRecord } from '../../core/basics/isRecord.ts'
import type { Hub, KeyValue } from '../../ports/hub.ts'
import { CLAIM_ms } from '../../ports/logStore.ts'
import type { Claimed } from './clinic.ts'

export interface ClaimDeps {
  readonly hub: Pick<Hub, 'keys' | 'state'>
  readonly device: string
  readonly nameOf: (device: string) => string | undefined
}

/**
 * Claims something for this device at the hub: of two devices one is refused and told who has it. A claim is spent
 * after `CLAIM_ms` of the hub's own clock; by then what it was for is seen by everybody.
 */
export async function claimAtHub(deps: ClaimDeps, what: string): Promise<Claimed> {
  const { hub, device, nameOf } = deps
  if (hub.state().kind !== 'connected') return { kind: 'alone' }
  const key = `claim/${what}`
  const bytes = new TextEncoder().encode(JSON.stringify({ device }))
  try {
    const first = await hub.keys.put(key, bytes, 0)
    if (first.kind === 'stored') return { kind: 'ours' }
    const { now } = first
    const by = now && deviceIn(now)
    // An answer that was lost, or the same button once more.
    if (!now || by === device) return { kind: 'ours' }
    const isSpent = (await hubNow_ms(deps)) - now.at_ms >= CLAIM_ms
    if (isSpent && (await hub.keys.put(key, bytes, now.revision)).kind === 'stored') {
      return { kind: 'ours' }
    }
    return { kind: 'taken', by: (by && nameOf(by)) ?? by ?? '' }
  } catch {
    return { kind: 'alone' }
  }
}

/** The hub's own time: clocks of devices may be an hour off. */
async function hubNow_ms({ hub, device }: ClaimDeps): Promise<number> {
  const key = `claim/clock.${device}`
  const bytes = new TextEncoder().encode(JSON.stringify({ device }))
  const before = await hub.keys.get(key)
  await hub.keys.put(key, bytes, before?.revision ?? 0)
  return (await hub.keys.get(key))?.at_ms ?? 0
}

function deviceIn({ bytes }: KeyValue): string | undefined {
  const json = parseJson(new TextDecoder().decode(bytes), 2)
  const device = json.ok && isRecord(json.value) ? json.value['device'] : undefined
  return typeof device === 'string' ? device : undefined
}
