import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { readAnswer, type ServerAnswer } from '../../src/core/handOver/serverAnswer.ts'
import type { RecordServer } from '../../src/ports/recordServer.ts'
import { memoryFhirServer } from './memoryFhirServer.ts'

type MemoryServer = ReturnType<typeof memoryFhirServer>

/** A FHIR server of another maker, as it stands behind HTTP and in this process. */
export interface FhirBehind {
  readonly memory: MemoryServer
  answer(method: string, path: string, body?: string): Promise<{ status: number; text: string }>
}

export function fhirBehind(memory = memoryFhirServer()): FhirBehind {
  return {
    memory,
    answer: async (method, path, body) => {
      const json = body === undefined || body === '' ? undefined : (JSON.parse(body) as unknown)
      const { outcome, said, body: told } = await memory.call(method, path, json)
      const status = STATUS_OF[outcome] ?? (outcome === 'ok' ? 200 : 400)
      return { status, text: JSON.stringify(status < 400 ? told : said) }
    },
  }
}

/** What the router says by name stands here as HTTP. */
const STATUS_OF: Readonly<Record<string, number>> = {
  ok: 200,
  created: 201,
  'not-found': 404,
  conflict: 409,
  'multiple-matches': 412,
}

/** The server within this process, without HTTP: the twin of the one over fetch. */
export function memoryRecordServer(behind: FhirBehind, address: string): RecordServer {
  const ask = async (method: string, path: string, body?: string): Promise<ServerAnswer> => {
    const { status, text } = await behind.answer(method, path, body)
    return readAnswer({ status, text, type: 'application/fhir+json' })
  }
  const within = (query: string): string => query.replace(`${address}/`, '')
  return {
    address,
    transact: (transaction) => ask('POST', '', transaction),
    put: (search, resource) => ask('PUT', search, resource),
    search: async (query) =>
      /^https?:/.test(within(query))
        ? { kind: 'trouble', why: 'moved', issues: [] }
        : ask('GET', within(query)),
  }
}

export type Answering = (
  request: IncomingMessage,
  body: string,
  response: ServerResponse,
) => unknown

/** An HTTP server on a free port of this machine. */
export async function httpServer(answering: Answering) {
  const server: Server = createServer((request, response) => {
    let body = ''
    request.setEncoding('utf8')
    request.on('data', (text: string) => (body += text))
    request.on('end', () => {
      void Promise.resolve(answering(request, body, response)).catch((error: unknown) => {
        response.writeHead(500).end(String(error))
      })
    })
  })
  const listen = (port: number): Promise<void> =>
    new Promise((done) => server.listen(port, '127.0.0.1', done))
  await listen(0)
  const address = server.address()
  const port = typeof address === 'object' && address ? address.port : 0
  return {
    /** After `stop`, at the address that it had. */
    startAgain: () => listen(port),
    origin: `http://127.0.0.1:${port}`,
    stop: () =>
      new Promise<void>((done) => {
        server.close(() => done())
        server.closeAllConnections()
      }),
  }
}

const CORS = {
  'Access-Control-Allow-Origin': '*',
  'Access-Control-Allow-Headers': 'content-type, authorization, accept',
  'Access-Control-Allow-Methods': 'GET, POST, PUT, OPTIONS',
}

/**
 * That server over HTTP under `/fhir`.
 * @param before answers in its place where it gives something back
 */
export async function fhirOverHttp(behind: FhirBehind, before?: Answering) {
  const http = await httpServer(async (request, body, response) => {
    for (const [name, value] of Object.entries(CORS)) response.setHeader(name, value)
    if (request.method === 'OPTIONS') return response.writeHead(204).end()
    if (before && (await before(request, body, response)) !== undefined) return undefined
    const path = (request.url ?? '').replace(/^\/fhir\/?/, '')
    const { status, text } = await behind.answer(request.method ?? 'GET', path, body)
    return response.writeHead(status, { 'Content-Type': 'application/fhir+json' }).end(text)
  })
  return { ...http, base: `${http.origin}/fhir` }
}
