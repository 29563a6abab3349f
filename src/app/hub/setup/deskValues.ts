import {
  deskValueText,
  readDeskValue,
  type DeskValue,
  type DeskValueFault,
} from '../../../core/hub/deskValue.ts'
import { deviceOf, verdictOf, type Roster } from '../../../core/hub/roster.ts'
import { canonicalJson } from '../../../core/log/canonicalJson.ts'
import type { Sign, VerifySignature } from '../../../core/log/exportFile.ts'
import type { Hub, KeyValue } from '../../../ports/hub.ts'

/** The first part of the keys that only desks may write. */
export const SITE = 'site'

/** Why something at the hub does not count as a desk's word. */
export type DeskValueRefusal =
  DeskValueFault | 'otherClinic' | 'otherPlace' | 'noDesk' | 'badSignature'

export interface DeskSigner {
  readonly hub: Pick<Hub, 'keys'>
  readonly clinic: string
  /** Id of this desk. */
  readonly device: string
  readonly sign: Sign
}

/** `stale`: another desk was first, nothing was written. */
export type PutDeskValue =
  { readonly kind: 'stored'; readonly edition: number } | { readonly kind: 'stale' }

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes)

/** The number under which something stands there, whoever says so; 0 for what is none. */
function editionThere(value: KeyValue | undefined): number {
  const read = value ? readDeskValue(text(value.bytes)) : 'shape'
  return typeof read === 'string' ? 0 : read.edition
}

/**
 * Signs a text and puts it in the place of the one before.
 * @param above the edition that this one is made on, where that matters to the person
 * @throws HubError as the hub does
 */
export async function putDeskValue(
  { hub, clinic, device, sign }: DeskSigner,
  what: string,
  body: string,
  above?: number,
): Promise<PutDeskValue> {
  const before = await hub.keys.get(what)
  const last = editionThere(before)
  if (above !== undefined && last > above) return { kind: 'stale' }
  const edition = Math.max(last, above ?? 0) + 1
  const head = { format: 'stillhand-desk', version: 1, clinic, what, edition } as const
  const unsigned = { ...head, by: device, body }
  const signed: DeskValue = { ...unsigned, signature: await sign(deskValueText(unsigned)) }
  const bytes = new TextEncoder().encode(canonicalJson(signed))
  const put = await hub.keys.put(what, bytes, before?.revision ?? 0)
  // An answer that was lost: what stands there is ours.
  const isOurs = put.kind === 'stored' || (put.now && text(put.now.bytes) === text(bytes))
  return isOurs ? { kind: 'stored', edition } : { kind: 'stale' }
}

/** What a desk of this clinic said there, or why it does not count. Never throws. */
export async function checkDeskValue(
  { key, bytes, at_ms }: KeyValue,
  roster: Roster,
  verify: VerifySignature,
): Promise<DeskValue | DeskValueRefusal> {
  const value = readDeskValue(text(bytes))
  if (typeof value === 'string') return value
  if (value.clinic !== roster.clinic) return 'otherClinic'
  if (value.what !== key) return 'otherPlace'
  const desk = deviceOf(roster, value.by)
  if (!desk?.isDesk || verdictOf(roster, value.by, at_ms) !== 'trusted') return 'noDesk'
  const isSigned = await verify(desk.signingKey, deskValueText(value), value.signature).catch(
    () => false,
  )
  return isSigned ? value : 'badSignature'
}
