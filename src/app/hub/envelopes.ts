import { parseJson } from '../../core/text/parseJson.ts'
import { envelopeText, readEnvelope, sealContext, type Envelope } from '../../core/hub/envelope.ts'
import type { HubEntry, KeptHubEntry } from '../../core/hub/hubEntry.ts'
import type { Arrived, AsideReason } from '../../core/hub/replica.ts'
import type { LastAtHub, Link } from '../../core/hub/sendPlan.ts'
import { canonicalJson } from '../../core/log/canonicalJson.ts'
import type { Sign, VerifySignature } from '../../core/log/exportFile.ts'
import type { Sealed } from '../../ports/vault.ts'
import { fromBase64, toBase64 } from './base64.ts'

/** The clinic's keys as far as an envelope needs them; what does not open rejects with an error that has a `fault`. */
export interface ClinicSealer {
  seal(context: string, text: string): Promise<{ readonly key: string; readonly sealed: Sealed }>
  open(context: string, key: string, sealed: Sealed): Promise<string>
}

/** Whom the clinic trusts, as its roster says. */
export interface TrustedDevices {
  /** @param at_ms when the hub took what the device sent */
  verdict(device: string, at_ms: number): 'trusted' | 'revoked' | 'unknown'
  /** Public key (SPKI, hex) that checks what it signs. */
  signingKey(device: string): string | undefined
  /** What people call it. */
  nameOf(device: string): string | undefined
}

export interface EnvelopeDeps {
  /** The name of this device at the hub. */
  readonly device: string
  readonly sealer: ClinicSealer
  readonly sign: Sign
  readonly verify: VerifySignature
  readonly trust: TrustedDevices
}

/** Closes entries for the hub and opens what comes from it. */
export interface Envelopes {
  readonly device: string
  close(kind: Envelope['kind'], log: string, link: Link, content: unknown): Promise<Uint8Array>
  /** Never rejects: what cannot be opened comes with the reason. */
  readonly open: (entry: KeptHubEntry) => Promise<Arrived>
}

export function createEnvelopes({ device, sealer, sign, verify, trust }: EnvelopeDeps): Envelopes {
  /** Why what an envelope holds does not count, or its content. */
  async function contentOf(
    envelope: Envelope,
    { at_ms, isVerified }: KeptHubEntry,
  ): Promise<{ readonly content: unknown } | { readonly refused: AsideReason }> {
    const verdict = trust.verdict(envelope.device, at_ms)
    if (verdict === 'revoked') return { refused: 'revoked' }
    const key = trust.signingKey(envelope.device)
    if (verdict === 'unknown' || key === undefined) return { refused: 'unknownDevice' }
    if (!isVerified && !(await verify(key, envelopeText(envelope), envelope.signature))) {
      return { refused: 'badSignature' }
    }
    try {
      const sealed = { iv: fromHex(envelope.iv), data: fromBase64(envelope.data) }
      const json = parseJson(await sealer.open(sealContext(envelope), envelope.key, sealed))
      return json.ok ? { content: json.value } : { refused: 'damaged' }
    } catch (error) {
      // Without the key, or with the keys locked, it may open later.
      const isDamaged = (error as { fault?: unknown }).fault === 'damaged'
      return { refused: isDamaged ? 'damaged' : 'unknownKey' }
    }
  }

  return {
    device,
    close: async (kind, log, { seq, hash }, content) => {
      const text = canonicalJson(content)
      const { key, sealed } = await sealer.seal(sealContext({ kind, log, seq }), text)
      const bare: Envelope = {
        format: 'stillhand-envelope',
        version: 1,
        kind,
        log,
        seq,
        hash,
        device,
        key,
        iv: toHex(sealed.iv),
        data: toBase64(sealed.data),
        signature: '',
      }
      const signature = await sign(envelopeText(bare))
      return new TextEncoder().encode(canonicalJson({ ...bare, signature }))
    },
    open: async (entry) => {
      const { sequence, at_ms, device: sender, kind, log } = entry
      const head = { sequence, at_ms, device: sender, kind, log }
      const read = envelopeOf(entry)
      if (typeof read === 'string') return { ...head, seq: 0, hash: '', refused: read }
      const { seq, hash } = read
      return { ...head, seq, hash, ...(await contentOf(read, entry)) }
    },
  }
}

/** The envelope of a message, or why it is none of the place in which it stands. */
function envelopeOf(entry: HubEntry): Envelope | 'unreadable' | 'newer' {
  const text = textOf(entry.bytes)
  const read = text === undefined ? undefined : readEnvelope(text)
  if (!read?.ok) return read?.faults[0] === 'newer' ? 'newer' : 'unreadable'
  const { log, device, kind } = read.value
  const isHere = log === entry.log && device === entry.device && kind === entry.kind
  return isHere ? read.value : 'unreadable'
}

/** Where the last message of a log stands in its chain; nothing is checked but that it is an envelope. */
export function lastAtHub(entry: HubEntry | undefined): LastAtHub | undefined {
  if (!entry) return undefined
  const { sequence, device } = entry
  const read = envelopeOf(entry)
  // Something stands there all the same: it fits no entry, so that the whole log is looked at.
  if (typeof read === 'string') return { sequence, device: '', seq: 0, hash: '' }
  return { sequence, device, seq: read.seq, hash: read.hash }
}

function textOf(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}

const toHex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')

const fromHex = (hex: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(hex.match(/../g) ?? [], (pair) => parseInt(pair, 16))
