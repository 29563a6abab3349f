import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { isRecord } from '../../src/core/basics/isRecord.ts'
import {
  readRecordServerFile,
  RECORD_SERVER_FILE,
  type RecordServerFile,
} from '../../src/app/site/recordServerFile.ts'
import { readHubSite } from '../../src/core/hub/hubSite.ts'
import { parseJson } from '../../src/core/text/parseJson.ts'
import { serverPattern } from '../../src/core/text/serverPattern.ts'

/** What a site puts beside the app: where its hub, its record server and other servers of its own are. */
export const SITE_FILES = ['hub.json', 'site.json', RECORD_SERVER_FILE] as const

export interface SiteConnects {
  /** Servers besides its own that the page may reach, as sources of a content policy. */
  readonly connect: readonly string[]
  /** What was left out, in words. */
  readonly faults: readonly string[]
}

/** Origins that the page must reach for a record server, each once. */
const originsOf = (file: RecordServerFile): readonly string[] => {
  const urls = [file.address, file.backend?.tokenEndpoint, file.launch?.tokenEndpoint]
  return [...new Set(urls.flatMap((url) => (url === undefined ? [] : [new URL(url).origin])))]
}

/** One server and nothing more of an address. */
const SERVER = serverPattern('http')

/** Reads the site's files in a folder. What lies opens nothing: the page then reaches its own origin alone. */
export function siteConnects(folder: string): SiteConnects {
  const faults: string[] = []
  const textOf = (name: (typeof SITE_FILES)[number]): string | undefined => {
    const file = join(folder, name)
    return existsSync(file) ? readFileSync(file, 'utf8') : undefined
  }
  const hub = textOf('hub.json')
  const read = hub === undefined ? undefined : readHubSite(hub)
  if (read && !read.ok) faults.push(`hub.json is no file of a hub: ${read.faults.join(', ')}.`)
  const site = textOf('site.json')
  const named = site === undefined ? [] : serversIn(site, faults)
  const server = textOf(RECORD_SERVER_FILE)
  const record = server === undefined ? undefined : readRecordServerFile(server)
  if (record && !record.ok) {
    faults.push(`${RECORD_SERVER_FILE} is no file of a record server: ${record.faults.join(', ')}.`)
  }
  const hubServers = read?.ok ? read.value.servers : []
  const recordServers = record?.ok ? originsOf(record.value) : []
  return { connect: [...new Set([...hubServers, ...named, ...recordServers])], faults }
}

function serversIn(text: string, faults: string[]): readonly string[] {
  const json = parseJson(text, 4)
  const { format, version, connect } = json.ok && isRecord(json.value) ? json.value : {}
  if (format !== 'stillhand-site' || version !== 1 || !Array.isArray(connect)) {
    faults.push(
      'site.json is no file of a site: {"format":"stillhand-site","version":1,"connect":[]}.',
    )
    return []
  }
  const all = connect as readonly unknown[]
  return all.filter((each): each is string => {
    const is = typeof each === 'string' && SERVER.test(each)
    if (!is) {
      faults.push(
        `site.json: ${JSON.stringify(each)} is no server: "https://name" or "https://name:port".`,
      )
    }
    return is
  })
}
