import { isRecord } from '../basics/isRecord.ts'
import { parseJson } from '../text/parseJson.ts'
import { isHubName } from './hubNames.ts'
import { readRoster } from './readRoster.ts'
import { canonicalJson } from '../log/canonicalJson.ts'
import { deviceOf, type SignedRoster } from './roster.ts'

/** What makes a device one of its clinic. Kept sealed: the seed is the device's own proof at the hub. */
export interface Membership {
  readonly clinic: string
  readonly device: string
  readonly pass: { readonly jwt: string; readonly seed: string }
  /** The last edition that this device has checked. */
  readonly roster: SignedRoster
}

export const membershipText = (membership: Membership): string =>
  JSON.stringify({ version: 1, ...membership, roster: canonicalJson(membership.roster) })

/** `undefined` for anything else than what was kept. */
export function readMembership(text: string): Membership | undefined {
  const json = parseJson(text)
  if (!json.ok || !isRecord(json.value) || json.value.version !== 1) return undefined
  const { clinic, device, pass, roster } = json.value
  if (!isRecord(pass) || typeof pass.jwt !== 'string' || typeof pass.seed !== 'string')
    return undefined
  if (typeof clinic !== 'string' || !isHubName(clinic) || typeof device !== 'string')
    return undefined
  const read = typeof roster === 'string' ? readRoster(roster) : undefined
  if (!read?.ok || read.value.roster.clinic !== clinic || !deviceOf(read.value.roster, device))
    return undefined
  return { clinic, device, pass: { jwt: pass.jwt, seed: pass.seed }, roster: read.value }
}

/** What a desk gives a device that it lets in: the same, without what only the device itself has. */
export interface Welcome {
  readonly clinic: string
  readonly device: string
  readonly jwt: string
  readonly roster: SignedRoster
}

export const welcomeBody = (welcome: Welcome): string =>
  JSON.stringify({ ...welcome, roster: canonicalJson(welcome.roster) })

/** What a desk gave, with the seed of the pass that this device asked for; `undefined` for anything else. */
export function readWelcome(body: string, seed: string): Membership | undefined {
  const json = parseJson(body)
  if (!json.ok || !isRecord(json.value)) return undefined
  const { clinic, device, jwt, roster } = json.value
  return readMembership(JSON.stringify({ version: 1, clinic, device, pass: { jwt, seed }, roster }))
}
