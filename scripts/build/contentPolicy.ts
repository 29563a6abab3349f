import { createHash } from 'node:crypto'

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
  // No text becomes a script's address but through the app's own policy, and none becomes code or markup.
  'require-trusted-types-for': "'script'",
  'trusted-types': 'default',
}

/** @param connect servers besides its own that the page may reach, as the site's files name them */
const pageWith = (connect: readonly string[]): Readonly<Record<string, string>> => ({
  ...PAGE,
  'connect-src': ["'self'", ...connect].join(' '),
})

const written = (policy: Readonly<Record<string, string>>): string =>
  Object.entries(policy)
    .map(([directive, sources]) => `${directive} ${sources}`)
    .join('; ')

/** For the header of every response but two workers. */
const pagePolicy = (connect: readonly string[]): string =>
  written({ ...pageWith(connect), 'frame-ancestors': "'none'" })

/** For `<meta>`, where a host sets no headers; browsers ignore `frame-ancestors` there. */
export const metaPolicy = (connect: readonly string[]): string => written(pageWith(connect))

/**
 * For the recognizer's worker file alone: its glue code builds functions from text, so the right to do so is kept
 * inside a worker that has no page to touch and can reach only this origin.
 */
const WORKER_POLICY =
  "default-src 'none'; script-src 'self' 'unsafe-eval' 'wasm-unsafe-eval'; connect-src 'self'"

const WORKER_PATH = '/vosk/vosk.worker.js'

/** The service worker loads its own library by `importScripts`, from this origin alone. */
const SERVICE_POLICY = "default-src 'none'; script-src 'self'; connect-src 'self'"

const policyOf = (path: string, connect: readonly string[]): string =>
  path === WORKER_PATH ? WORKER_POLICY : path === '/sw.js' ? SERVICE_POLICY : pagePolicy(connect)

/** What of the device the page may use; everything else that a browser knows is closed. */
const OPEN = ['microphone', 'screen-wake-lock', 'autoplay', 'clipboard-write', 'fullscreen']
const CLOSED = [
  ...['accelerometer', 'bluetooth', 'browsing-topics', 'camera', 'clipboard-read'],
  ...['display-capture', 'encrypted-media', 'gamepad', 'geolocation', 'gyroscope', 'hid'],
  ...['identity-credentials-get', 'idle-detection', 'keyboard-map', 'local-fonts', 'magnetometer'],
  ...['midi', 'otp-credentials', 'payment', 'picture-in-picture', 'publickey-credentials-create'],
  ...['publickey-credentials-get', 'serial', 'storage-access', 'usb', 'window-management'],
  ...['xr-spatial-tracking'],
]
const PERMISSIONS = [
  ...OPEN.map((name) => `${name}=(self)`),
  ...CLOSED.map((name) => `${name}=()`),
].join(', ')

/** Headers that go with every response. */
export function securityHeaders(
  path: string,
  connect: readonly string[] = [],
): Readonly<Record<string, string>> {
  return {
    'Content-Security-Policy': policyOf(path, connect),
    'Referrer-Policy': 'no-referrer',
    'X-Content-Type-Options': 'nosniff',
    'Permissions-Policy': PERMISSIONS,
    'Cross-Origin-Embedder-Policy': 'require-corp',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
  }
}

/** Changes with any of these headers: what a browser keeps of the app keeps its headers, and must be fetched anew. */
export const headersMark = (connect: readonly string[]): string =>
  createHash('sha256')
    .update(
      JSON.stringify(['/', WORKER_PATH, '/sw.js'].map((path) => securityHeaders(path, connect))),
    )
    .digest('hex')
    .slice(0, 8)
