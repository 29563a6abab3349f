import { isRecord } from '../basics/isRecord.ts'
import { faulty, ok, type Result } from '../basics/result.ts'
import { parseJson } from '../text/parseJson.ts'
import { SITE_FILE_MAX } from '../text/readSiteFile.ts'
import { serverPattern } from '../text/serverPattern.ts'
import { isHubName } from './hubNames.ts'

/** Where a site's hub is, as its file `hub.json` beside the app says. Nothing in it is secret. */
export interface HubSite {
  readonly clinic: string
  /** One for each node, `wss://hub.clinic.example:9222`. */
  readonly servers: readonly string[]
  /** Signed by the clinic: lets a stranger ask to join, and nothing else. */
  readonly joiningJwt: string
}

/** What is wrong with a site's file. The words for each stand in the language files. */
export const HUB_SITE_FAULTS = [
  /** No JSON. */
  'json',
  /** Not the file that `npm run hub:keys` makes. */
  'shape',
  /** Made for a newer version of the app. */
  'newer',
  /** An address that is none of a hub: `wss://`, or `ws://` on this machine, a name and a port, and nothing behind it. */
  'address',
  /** This device belongs to another clinic than the one in the file. */
  'otherClinic',
  /** The part of the app that a hub needs did not come. */
  'notLoaded',
] as const
export type HubSiteFault = (typeof HUB_SITE_FAULTS)[number]

const FORMAT = 'stillhand-hub'
const VERSION = 1
const SERVERS_MAX = 9
/** Three parts of base64url, as every signed pass. */
const JWT = /^[\w-]+\.[\w-]+\.[\w-]+$/

const ADDRESS = serverPattern('ws')

/** A node of a hub that a site may name; nothing stands behind its port. */
export const isHubAddress = (text: string): boolean => ADDRESS.test(text)

/** The file as `npm run hub:keys` makes it. */
export const hubSiteText = (site: HubSite): string =>
  `${JSON.stringify({ format: FORMAT, version: VERSION, ...site }, undefined, 2)}\n`

export function readHubSite(text: string): Result<HubSite, HubSiteFault> {
  if (text.length > SITE_FILE_MAX) return faulty(['shape'])
  const json = parseJson(text, 4)
  if (!json.ok) return faulty(['json'])
  const { format, version, clinic, servers, joiningJwt } = isRecord(json.value) ? json.value : {}
  if (format !== FORMAT || typeof version !== 'number') return faulty(['shape'])
  if (version > VERSION) return faulty(['newer'])
  const isShape =
    typeof clinic === 'string' &&
    isHubName(clinic) &&
    Array.isArray(servers) &&
    servers.length > 0 &&
    servers.length <= SERVERS_MAX &&
    typeof joiningJwt === 'string' &&
    JWT.test(joiningJwt)
  if (!isShape) return faulty(['shape'])
  const all = servers as readonly unknown[]
  const isText = (value: unknown): value is string => typeof value === 'string'
  if (!all.every(isText) || !all.every(isHubAddress)) return faulty(['address'])
  return ok({ clinic, servers: all, joiningJwt })
}
