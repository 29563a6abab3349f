import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { realpath, stat } from 'node:fs/promises'
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { extname, join, sep } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { securityHeaders } from './contentPolicy.ts'
import { hostKind, OWN_NAME } from './hosts.ts'
import { siteConnects, SITE_FILES } from './siteFiles.ts'

const TYPES: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.gz': 'application/gzip',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.m4a': 'audio/mp4',
  '.mp3': 'audio/mpeg',
  '.ogg': 'audio/ogg',
  '.opus': 'audio/ogg',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.wav': 'audio/wav',
  '.webm': 'audio/webm',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
}

export interface ServerOptions {
  /** Names beside `localhost` under which the app is served as it is; every other name of this machine leads there. */
  readonly hosts?: readonly string[]
  /** Where the records of the app are kept, when that is another address than this one. */
  readonly keptAt?: () => string | undefined
}

/** What the page asks to learn whether its records are kept elsewhere. */
const KEPT_AT_PATH = '/kept-at.json'

/** Serves the files under `root` and nothing else, with the security headers. Not yet listening. */
export function staticServer(root: string, options: ServerOptions = {}): Server {
  const { connect } = siteConnects(root)
  return createServer((request, response) => {
    answer(root, { ...options, connect }, request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500)
      response.end()
    })
  })
}

async function answer(
  root: string,
  options: ServerOptions & { readonly connect: readonly string[] },
  request: IncomingMessage,
  response: ServerResponse,
) {
  const path = pathOf(request.url ?? '/')
  const headers = securityHeaders(path ?? '', options.connect)
  const kind = hostKind(request.headers.host, options.hosts ?? [])
  if (kind === 'foreign') return refuse(response, 421, 'Not a name of this app.', headers)
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return refuse(response, 405, 'Only GET and HEAD.', { ...headers, Allow: 'GET, HEAD' })
  }
  if (kind === 'elsewhere') {
    const Location = `http://${OWN_NAME}:${request.socket.localPort ?? ''}${request.url ?? '/'}`
    return refuse(response, 307, `The app is at ${Location}`, { ...headers, Location })
  }
  if (path === KEPT_AT_PATH) {
    const text = JSON.stringify({ keptAt: options.keptAt?.() ?? null })
    const json = { 'Content-Type': 'application/json; charset=utf-8', 'Cache-Control': 'no-store' }
    response.writeHead(200, { ...headers, ...json }).end(request.method === 'HEAD' ? '' : text)
    return
  }
  const file = path === undefined ? undefined : await fileOf(root, path)
  // A site that has set nothing: that is no error, and no browser is to tell of one.
  if (!file && SITE_FILES.some((name) => path === `/${name}`)) {
    response.writeHead(204, { ...headers, 'Cache-Control': 'no-store' }).end()
    return
  }
  if (path === undefined || !file) return refuse(response, 404, 'Not found.', headers)

  const tag = `"${createHash('sha256').update(`${file.size_B} ${file.changed_ms}`).digest('hex').slice(0, 20)}"`
  const known = {
    ...headers,
    'Content-Type': TYPES[extname(file.path)] ?? 'application/octet-stream',
    'Cache-Control': path.startsWith('/assets/')
      ? 'public, max-age=31536000, immutable'
      : 'no-cache',
    ETag: tag,
    'Accept-Ranges': 'bytes',
  }
  if (request.headers['if-none-match'] === tag) {
    response.writeHead(304, known).end()
    return
  }
  const range = rangeOf(request.headers.range, file.size_B)
  if (range === 'unsatisfiable') {
    return refuse(response, 416, 'Not that range.', {
      ...headers,
      'Content-Range': `bytes */${file.size_B}`,
    })
  }
  const { from, to } = range ?? { from: 0, to: file.size_B - 1 }
  response.writeHead(range ? 206 : 200, {
    ...known,
    'Content-Length': to - from + 1,
    ...(range ? { 'Content-Range': `bytes ${from}-${to}/${file.size_B}` } : {}),
  })
  if (request.method === 'HEAD' || file.size_B === 0) {
    response.end()
    return
  }
  await pipeline(createReadStream(file.path, { start: from, end: to }), response)
}

function refuse(
  response: ServerResponse,
  status: number,
  text: string,
  headers: Record<string, string>,
): void {
  response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8' }).end(text)
}

/** The decoded path, or `undefined` if it cannot name a file here. */
function pathOf(url: string): string | undefined {
  const [raw = '/'] = url.split(/[?#]/)
  let path: string
  try {
    path = decodeURIComponent(raw)
  } catch {
    return undefined
  }
  const unsafe = !path.startsWith('/') || /[\0\\]/.test(path) || path.split('/').includes('..')
  if (unsafe) return undefined
  return path.endsWith('/') ? `${path}index.html` : path
}

/** Resolves links too, so that none leads out of `root`. */
async function fileOf(root: string, path: string) {
  try {
    const inside = await realpath(root)
    const real = await realpath(join(inside, path))
    if (!real.startsWith(inside + sep)) return undefined
    const facts = await stat(real)
    return facts.isFile()
      ? { path: real, size_B: facts.size, changed_ms: facts.mtimeMs }
      : undefined
  } catch {
    return undefined
  }
}

/** One byte range (RFC 9110 section 14.2); several at once or an unknown unit are answered with the whole file. */
function rangeOf(
  header: string | undefined,
  size_B: number,
): { from: number; to: number } | 'unsatisfiable' | undefined {
  const match = /^bytes=(\d*)-(\d*)$/.exec(header ?? '')
  const [, first = '', last = ''] = match ?? []
  if (!match || (first === '' && last === '')) return undefined
  const from = first === '' ? Math.max(0, size_B - Number(last)) : Number(first)
  const to = first === '' || last === '' ? size_B - 1 : Math.min(Number(last), size_B - 1)
  if (first !== '' && last !== '' && Number(last) < from) return undefined
  return from >= size_B || (first === '' && Number(last) === 0) ? 'unsatisfiable' : { from, to }
}
