import { createServer } from 'node:net'
import { setTimeout as sleep } from 'node:timers/promises'
import { startJava, stopJava } from './java.ts'

export interface HapiAnswer {
  readonly status: number
  readonly body: Record<string, unknown>
  /** Of each entry of a transaction: type, status, and version. */
  readonly entries: readonly {
    readonly type: string
    readonly status: string
    readonly version: string
  }[]
  /** What the server said of it. */
  readonly issues: readonly string[]
}

/** A HAPI FHIR JPA server of its own on a free port of this machine, its database in memory. */
export async function startHapi() {
  const port = await freePort()
  const java = startJava('FhirServer', '1500m', [`--server.port=${port}`])
  const said: string[] = []
  for (const stream of [java.stdout, java.stderr])
    stream?.on('data', (text) => said.push(String(text)))
  const base = `http://127.0.0.1:${port}/fhir`
  const until_ms = Date.now() + 420_000
  for (;;) {
    if (java.exitCode !== null) throw new Error(`The server ended.\n${said.join('').slice(-3000)}`)
    if (Date.now() > until_ms)
      throw new Error(`The server did not start.\n${said.join('').slice(-3000)}`)
    const up = await fetch(`${base}/metadata`).then(
      ({ ok }) => ok,
      () => false,
    )
    if (up) break
    await sleep(500)
  }
  const call = async (method: string, path: string, body?: unknown): Promise<HapiAnswer> => {
    const answer = await fetch(`${base}${path}`, {
      method,
      headers: { 'content-type': 'application/fhir+json', 'cache-control': 'no-cache' },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    })
    return read(answer.status, (await answer.json()) as Record<string, unknown>)
  }
  return {
    base,
    call,
    send: (transaction: unknown) => call('POST', '', transaction),
    count: async (query: string): Promise<number> => {
      const separator = query.includes('?') ? '&' : '?'
      const { body } = await call('GET', `/${query}${separator}_summary=count`)
      return Number(body['total'])
    },
    search: async (query: string): Promise<Record<string, unknown>[]> => {
      const { body } = await call('GET', `/${query}`)
      return ((body['entry'] ?? []) as { resource: Record<string, unknown> }[]).map(
        (e) => e.resource,
      )
    },
    stop: () => stopJava(java),
  }
}
export type Hapi = Awaited<ReturnType<typeof startHapi>>

function read(status: number, body: Record<string, unknown>): HapiAnswer {
  const entry = (body['entry'] ?? []) as {
    readonly response?: {
      readonly status: string
      readonly location: string
      readonly etag: string
    }
  }[]
  const issue = (body['issue'] ?? []) as { readonly diagnostics?: string }[]
  return {
    status,
    body,
    entries: entry.flatMap(({ response }) => {
      if (!response) return []
      const [type = '', , , version = ''] = response.location.split('/')
      return [{ type, status: response.status.slice(0, 3), version }]
    }),
    issues: issue.map(({ diagnostics = '' }) => diagnostics),
  }
}

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer()
    server.on('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      server.close(() =>
        typeof address === 'object' && address
          ? resolve(address.port)
          : reject(new Error('no port')),
      )
    })
  })
