/**
 * What the page may load and run: its own files, nothing inline, nothing from elsewhere.
 * The sounds are fetched (connect-src) and played by Web Audio; media-src covers the fallback to an audio element.
 */
const PAGE: Readonly<Record<string, string>> = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self'",
  'font-src': "'self'",
  'connect-src': "'self'",
  'media-src': "'self'",
  'worker-src': "'self'",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
}

const written = (policy: Readonly<Record<string, string>>): string =>
  Object.entries(policy)
    .map(([directive, sources]) => `${directive} ${sources}`)
    .join('; ')

/** For the header of every response but the recognizer's worker. */
const PAGE_POLICY = written({ ...PAGE, 'frame-ancestors': "'none'" })

/** For `<meta>`, where a host sets no headers; browsers ignore `frame-ancestors` there. */
export const META_POLICY = written(PAGE)

/**
 * For the recognizer's worker file alone: its glue code builds functions from text, so the right to do so is kept
 * inside a worker that has no page to touch and can reach only this origin.
 */
const WORKER_POLICY =
  "default-src 'none'; script-src 'self' 'unsafe-eval' 'wasm-unsafe-eval'; connect-src 'self'"

const WORKER_PATH = '/vosk/vosk.worker.js'

/** Headers that go with every response. */
export function securityHeaders(path: string): Readonly<Record<string, string>> {
  return {
    'Content-Security-Policy': path === WORKER_PATH ? WORKER_POLICY : PAGE_POLICY,
    'Referrer-Policy': 'no-referrer',
    'X-Content-Type-Options': 'nosniff',
    'Permissions-Policy': 'microphone=(self), camera=(), geolocation=(), screen-wake-lock=(self)',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  }
}
