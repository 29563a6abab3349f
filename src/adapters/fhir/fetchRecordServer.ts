import {
  readAnswer,
  type ServerAnswer,
  type ServerTrouble,
} from '../../core/handOver/serverAnswer.ts'
import type { Clock } from '../../ports/clock.ts'
import { wakeIn } from '../../ports/patience.ts'
import type { RecordServer } from '../../ports/recordServer.ts'
import type { ServerAccess } from '../../ports/serverAccess.ts'
import { readAtMost } from './readAtMost.ts'

export interface RecordServerOptions {
  /** Base address (R4, http.html, "Service Base URL"). */
  readonly address: string
  readonly access: ServerAccess
  readonly clock: Clock
  /** After this an answer counts as lost; what was sent may have come there all the same. */
  readonly patience_s: number
  /** More of an answer is not read. */
  readonly most_B: number
  readonly fetch?: typeof fetch
}

const FHIR_JSON = 'application/fhir+json'

/**
 * A FHIR R4 server over HTTP. Nothing follows a redirect, no cookie goes along, nothing is cached: what is sent goes to
 * the address that the site set or nowhere.
 */
export function createFetchRecordServer(options: RecordServerOptions): RecordServer {
  const { access, clock, patience_s, most_B } = options
  const call = options.fetch ?? fetch.bind(globalThis)
  const address = options.address.replace(/\/+$/, '')

  async function ask(method: string, url: string, body?: string): Promise<ServerAnswer> {
    const opened = await access.headers()
    if (!opened.ok)
      return { ...trouble('login'), ...(opened.faults[0] && { access: opened.faults[0] }) }
    const abort = new AbortController()
    const silence = wakeIn(clock, patience_s * 1000, () => abort.abort())
    try {
      const response = await call(url, {
        method,
        headers: {
          Accept: FHIR_JSON,
          ...(body !== undefined && { 'Content-Type': FHIR_JSON }),
          ...opened.value,
        },
        ...(body !== undefined && { body }),
        redirect: 'manual',
        credentials: 'omit',
        cache: 'no-store',
        referrerPolicy: 'no-referrer',
        signal: abort.signal,
      })
      if (response.type === 'opaqueredirect') return trouble('moved')
      const text = await readAtMost(response, most_B)
      if (response.status === 401) access.forget()
      const retryAfter_s = Number(response.headers.get('Retry-After') ?? Number.NaN)
      return readAnswer({
        status: response.status,
        type: response.headers.get('Content-Type') ?? '',
        text,
        ...(retryAfter_s > 0 && { retryAfter_s }),
      })
    } catch {
      // A page is never told why: no network, no such server, a certificate, or a server that forbids it.
      return trouble(abort.signal.aborted ? 'silent' : 'unreachable')
    } finally {
      silence()
    }
  }

  return {
    address,
    transact: (transaction) => ask('POST', address, transaction),
    put: (search, resource) => ask('PUT', `${address}/${search}`, resource),
    search: async (query) => {
      const url = pageOf(address, query)
      return url === undefined ? trouble('moved') : ask('GET', url)
    },
  }
}

const trouble = (why: ServerTrouble) => ({ kind: 'trouble', why, issues: [] }) as const

/**
 * Where a search or a further page of it is asked for. A server may give pages any address (R4, http.html, "Paging");
 * one outside of where the site set is not gone to, since the login would go along.
 */
function pageOf(address: string, query: string): string | undefined {
  if (!/^[a-z][a-z\d+.-]*:/i.test(query)) return `${address}/${query}`
  const { origin, pathname } = new URL(address)
  const page = URL.canParse(query) ? new URL(query) : undefined
  const isWithin =
    page?.origin === origin &&
    (page.pathname === pathname || page.pathname.startsWith(`${pathname.replace(/\/$/, '')}/`))
  return isWithin ? query : undefined
}
