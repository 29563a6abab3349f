import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { request, type IncomingHttpHeaders, type Server } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { staticServer } from '../../scripts/build/staticServer.ts'

interface Answer {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly text: string
}

let server: Server
let port: number
let keptAt: string | undefined
const folder = mkdtempSync(join(tmpdir(), 'stillhand-server-'))
const root = join(folder, 'dist')

beforeAll(async () => {
  for (const name of ['assets', 'vosk', 'models']) mkdirSync(join(root, name), { recursive: true })
  writeFileSync(join(folder, 'secret.txt'), 'secret')
  writeFileSync(join(root, 'index.html'), '<!doctype html>')
  writeFileSync(join(root, 'assets', 'a-1234.js'), '0123456789')
  writeFileSync(join(root, 'vosk', 'vosk.worker.js'), '1')
  writeFileSync(join(root, 'vosk', 'vosk.wasm'), '')
  writeFileSync(join(root, 'models', 'm.tar.gz'), 'm')
  symlinkSync(join(folder, 'secret.txt'), join(root, 'link.txt'))
  server = staticServer(root, { hosts: ['tablet.local'], keptAt: () => keptAt })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  port = typeof address === 'object' && address ? address.port : 0
})

afterAll(() => {
  server.closeAllConnections()
  server.close()
  rmSync(folder, { recursive: true })
})

/** Sends the path as it stands; `fetch` would tidy it first. */
const get = (path: string, more: Record<string, string> = {}, method = 'GET') =>
  new Promise<Answer>((resolve, reject) => {
    const headers = { host: `localhost:${port}`, ...more }
    const asked = request({ host: '127.0.0.1', port, path, method, headers }, (response) => {
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (part: string) => (text += part))
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, text }),
      )
    })
    asked.on('error', reject)
    asked.end()
  })

test.each([
  ['/', 'text/html; charset=utf-8'],
  ['/assets/a-1234.js?x=1', 'text/javascript; charset=utf-8'],
  ['/vosk/vosk.wasm', 'application/wasm'],
  ['/models/m.tar.gz', 'application/gzip'],
])('%s is served as %s', async (path, type) => {
  const { status, headers } = await get(path)
  expect(status).toBe(200)
  expect(headers['content-type']).toBe(type)
  expect(headers['x-content-type-options']).toBe('nosniff')
  // A model must arrive packed: with this header the browser would unpack it and its checksum would be wrong.
  expect(headers['content-encoding']).toBeUndefined()
})

test('the page may run nothing but its own files; only the recognizer worker may build functions', async () => {
  const page = (await get('/')).headers['content-security-policy']
  expect(page).toContain("script-src 'self';")
  expect(page).not.toContain('unsafe')
  expect(page).toContain("frame-ancestors 'none'")
  const worker = (await get('/vosk/vosk.worker.js')).headers['content-security-policy']
  expect(worker).toContain("'unsafe-eval'")
  expect((await get('/assets/a-1234.js')).headers['content-security-policy']).toBe(page)
})

test('text becomes neither markup nor code, and a script address only by the policy of the app', async () => {
  const page = (await get('/')).headers['content-security-policy']
  expect(page).toContain("require-trusted-types-for 'script'")
  expect(page).toMatch(/trusted-types default(;|$)/)
  // It loads its own library by address, so it has a policy of its own, as tight in all else.
  const service = (await get('/sw.js')).headers['content-security-policy']
  expect(service).toBe("default-src 'none'; script-src 'self'; connect-src 'self'")
})

test('whatever the page does not use of the device is closed', async () => {
  const { headers } = await get('/')
  const allowed = String(headers['permissions-policy']).split(', ')
  const open = allowed.filter((each) => !each.endsWith('=()'))
  expect(open.sort()).toEqual(
    ['autoplay', 'clipboard-write', 'fullscreen', 'microphone', 'screen-wake-lock'].map(
      (name) => `${name}=(self)`,
    ),
  )
  for (const name of ['usb', 'serial', 'hid', 'bluetooth', 'display-capture', 'camera', 'midi']) {
    expect(allowed).toContain(`${name}=()`)
  }
  expect(headers['cross-origin-embedder-policy']).toBe('require-corp')
})

test.each(['/', '/assets/a-1234.js', '/models/m.tar.gz'])(
  'a name that was pointed at this machine from outside gets nothing of %s',
  async (path) => {
    for (const host of [
      'rebound.example',
      `rebound.example:${port}`,
      'localhost.example',
      '10.0.0.7',
    ]) {
      const { status, text } = await get(path, { host })
      expect([host, status]).toEqual([host, 421])
      expect(text).not.toMatch(/doctype|0123/)
    }
  },
)

test('names that were configured are served as they are', async () => {
  expect((await get('/', { host: 'Tablet.local:80' })).status).toBe(200)
})

test.each(['127.0.0.1', '[::1]', 'other.localhost', '127.1.2.3'])(
  '%s leads to the one address that the records are kept at',
  async (name) => {
    const { status, headers } = await get('/index.html?x=1', { host: `${name}:${port}` })
    expect(status).toBe(307)
    expect(headers.location).toBe(`http://localhost:${port}/index.html?x=1`)
  },
)

test('the page can ask whether its records are kept elsewhere', async () => {
  const asked = await get('/kept-at.json')
  expect([asked.text, asked.headers['cache-control']]).toEqual(['{"keptAt":null}', 'no-store'])
  keptAt = 'http://localhost:4173/'
  expect((await get('/kept-at.json')).text).toBe('{"keptAt":"http://localhost:4173/"}')
})

test.each([
  '/../secret.txt',
  '/assets/../../secret.txt',
  '/%2e%2e/secret.txt',
  '/..%2fsecret.txt',
  '/..%5csecret.txt',
  '/link.txt',
  '/%00',
  '/%',
  '/assets',
  '/missing.js',
])('%s leads nowhere', async (path) => {
  const { status, text } = await get(path)
  expect(status).toBe(404)
  expect(text).not.toContain('secret')
})

test('a known file is not sent twice, and one with a hash in its name is never asked for again', async () => {
  const first = await get('/')
  expect(first.headers['cache-control']).toBe('no-cache')
  const again = await get('/', { 'if-none-match': first.headers.etag ?? '' })
  expect([again.status, again.text]).toEqual([304, ''])
  expect((await get('/assets/a-1234.js')).headers['cache-control']).toContain('immutable')
})

test.each([
  ['bytes=2-4', 206, '234', 'bytes 2-4/10'],
  ['bytes=7-', 206, '789', 'bytes 7-9/10'],
  ['bytes=-2', 206, '89', 'bytes 8-9/10'],
  ['bytes=0-99', 206, '0123456789', 'bytes 0-9/10'],
  ['bytes=0-1,4-5', 200, '0123456789', undefined],
  ['bytes=5-2', 200, '0123456789', undefined],
  ['bytes=10-', 416, 'Not that range.', 'bytes */10'],
])('range %s', async (range, status, text, contentRange) => {
  const answer = await get('/assets/a-1234.js', { range })
  expect([answer.status, answer.text]).toEqual([status, text])
  expect(answer.headers['content-range']).toBe(contentRange)
})

test('HEAD sends no body and other methods are refused', async () => {
  const head = await get('/', {}, 'HEAD')
  expect([head.status, head.text, head.headers['content-length']]).toEqual([200, '', '15'])
  expect((await get('/', {}, 'POST')).status).toBe(405)
})
