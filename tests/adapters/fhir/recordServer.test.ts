import { afterEach, describe, expect, it } from 'vitest'
import { createFetchRecordServer } from '../../../src/adapters/fhir/fetchRecordServer.ts'
import { NO_ACCESS } from '../../../src/adapters/fhir/noAccess.ts'
import { createSystemClock } from '../../../src/adapters/time/systemClock.ts'
import { recordServerContract } from '../../contract/recordServer.contract.ts'
import {
  fhirBehind,
  fhirOverHttp,
  httpServer,
  memoryRecordServer,
  type Answering,
} from '../../support/fhirHttp.ts'

const stops: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const stop of stops.splice(0)) await stop()
})

const clock = createSystemClock('test')
const over = (address: string, patience_s = 10, most_B = 1_000_000) =>
  createFetchRecordServer({ address, access: NO_ACCESS, clock, patience_s, most_B })

recordServerContract('within the process', () =>
  Promise.resolve(memoryRecordServer(fhirBehind(), 'https://fhir.example/r4')),
)
recordServerContract('over HTTP', async () => {
  const http = await fhirOverHttp(fhirBehind())
  stops.push(http.stop)
  return over(http.base)
})

describe('a server that does not do what it should', () => {
  const answering = async (answer: Answering) => {
    const http = await httpServer(answer)
    stops.push(http.stop)
    return http.origin
  }

  it('is not there at all', async () => {
    const origin = await answering(() => undefined)
    await stops.splice(0)[0]?.()
    expect(await over(origin).transact('{}')).toMatchObject({ why: 'unreachable' })
  })

  it('hangs: the answer counts as lost after the time that is waited', async () => {
    const origin = await answering(() => undefined)
    expect(await over(origin, 0.2).transact('{}')).toMatchObject({ why: 'silent' })
  })

  it('sends headers and then nothing more', async () => {
    const origin = await answering((_q, _b, response) => {
      response.writeHead(200, { 'Content-Type': 'application/fhir+json' }).write('{"resource')
    })
    expect(await over(origin, 0.3).transact('{}')).toMatchObject({ why: 'silent' })
  })

  it('closes in the middle of its answer', async () => {
    const origin = await answering((_q, _b, response) => {
      response.writeHead(200, { 'Content-Length': '5000' }).write('{"resourceType"')
      setTimeout(() => response.destroy(), 20)
    })
    expect(await over(origin).transact('{}')).toMatchObject({ why: 'unreachable' })
  })

  it('leads elsewhere: the other one is never asked', async () => {
    let asked = 0
    const other = await answering((_q, _b, response) => {
      asked++
      response.end('{}')
    })
    const origin = await answering((_q, _b, response) => {
      response.writeHead(307, { Location: other }).end()
    })
    expect(await over(origin).transact('{}')).toMatchObject({ why: 'moved' })
    expect(asked).toBe(0)
  })

  it('answers a refusal of ten megabytes: it is told as refused and not read to its end', async () => {
    let isClosed = false
    const origin = await answering((request, _b, response) => {
      request.socket.on('close', () => (isClosed = true))
      response.writeHead(422, { 'Content-Type': 'application/fhir+json' })
      response.end(`{"resourceType":"OperationOutcome","x":"${'y'.repeat(10_000_000)}"}`)
    })
    const answer = await over(origin).transact('{}')
    expect(answer).toEqual({ kind: 'refused', status: 422, issues: [] })
    await expect.poll(() => isClosed, { timeout: 5000 }).toBe(true)
  })

  it('asks to wait', async () => {
    const origin = await answering((_q, _b, response) => {
      response.writeHead(503, { 'Retry-After': '77' }).end('busy')
    })
    expect(await over(origin).transact('{}')).toMatchObject({ why: 'busy', retryAfter_s: 77 })
  })

  it('gives pages beside its base, which are not gone to', async () => {
    const origin = await answering((_q, _b, response) => response.end('{}'))
    const server = over(`${origin}/fhir`)
    expect(await server.search(`${origin}/fhirX?page=2`)).toMatchObject({ why: 'moved' })
    expect(await server.search(`${origin}/fhir?page=2`)).toMatchObject({ why: 'notFhir' })
  })
})

// HL7 FHIR R4, http.html, "Content Types and encodings" and "Service Base URL".
it('sends JSON of FHIR to the base itself, without cookies', async () => {
  const seen: Record<string, unknown>[] = []
  const http = await httpServer((request, body, response) => {
    const { accept, cookie } = request.headers
    seen.push({
      ...{ method: request.method, url: request.url, body, accept, cookie },
      type: request.headers['content-type'],
    })
    response.end('{"resourceType":"Bundle"}')
  })
  stops.push(http.stop)
  await over(`${http.origin}/fhir/`).transact('{"a":1}')
  const type = 'application/fhir+json'
  expect(seen).toEqual([
    { method: 'POST', url: '/fhir', body: '{"a":1}', accept: type, cookie: undefined, type },
  ])
})
