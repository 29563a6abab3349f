import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { join } from 'node:path'
import { copiedFiles } from '../../scripts/build/copiedFiles.ts'
import { securityHeaders } from '../../scripts/build/contentPolicy.ts'

export interface PageServer {
  /** Without a slash at the end. */
  readonly url: string
  /** Paths asked for so far, oldest first. */
  readonly asked: readonly string[]
  /** What else is served: path to bytes, or to a status. */
  readonly extra: Map<string, Uint8Array | number>
  close(): Promise<void>
}

const PAGE = '<!doctype html><meta charset="utf-8"><title>Page</title><script type="module" src="/page.js"></script>' // prettier-ignore
const root = join(import.meta.dirname, '..', '..')

/**
 * Serves a bundled page, and beside it the recognizer and the models as the app has them, with the app's own content
 * policy. Isolated from other origins, so that the page may measure its memory.
 */
export async function pageServer(folder: string): Promise<PageServer> {
  const files = copiedFiles(root)
  const extra: PageServer['extra'] = new Map()
  const asked: string[] = []
  const bytesOf = (path: string): Uint8Array | number => {
    const other = extra.get(path)
    if (other !== undefined) return other
    if (path === '/') return Buffer.from(PAGE)
    if (path === '/favicon.ico') return 204
    const file = files.get(path.slice(1))
    try {
      return readFileSync(file ?? join(folder, path))
    } catch {
      return 404
    }
  }
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname
    asked.push(path)
    const bytes = bytesOf(path)
    const headers = {
      ...securityHeaders(path),
      'Cross-Origin-Embedder-Policy': 'require-corp',
      'Content-Type': typeOf(path),
      'Cache-Control': 'no-cache',
    }
    if (typeof bytes === 'number') response.writeHead(bytes, headers).end()
    else response.writeHead(200, { ...headers, 'Content-Length': bytes.length }).end(bytes)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = server.address()
  if (typeof address !== 'object' || !address) throw new Error('The server has no port.')
  return {
    url: `http://localhost:${address.port}`,
    asked,
    extra,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections()
        server.close(() => resolve())
      }),
  }
}

const typeOf = (path: string): string =>
  path === '/'
    ? 'text/html; charset=utf-8'
    : path.endsWith('.js')
      ? 'text/javascript; charset=utf-8'
      : path.endsWith('.wasm')
        ? 'application/wasm'
        : 'application/octet-stream'
