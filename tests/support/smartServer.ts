import { createHash } from 'node:crypto'
import * as jose from 'jose'
import { fhirBehind, httpServer, type FhirBehind } from './fhirHttp.ts'

/** What the authorization server does otherwise than it should, or as a site may have it. */
export interface SmartOptions {
  /** The keys that it knows, as a JWK Set. */
  jwks?: string
  /** Scopes that it gives, whatever is asked; as asked without. */
  grants?: string
  expires_s?: number
  /** Says another authorization server in its configuration. */
  lies?: boolean
  withoutPkce?: boolean
  /** By how much its clock is ahead, s. */
  ahead_s?: number
  showsDate?: boolean
  /** Gives no refresh token. */
  once?: boolean
  /** Whoever is asked there says no. */
  denies?: boolean
  /** Who is in the chart. */
  patient?: string
}

const CORS = {
  'Access-Control-Allow-Origin': '*',
  'Access-Control-Allow-Headers': 'content-type, authorization, accept',
  'Access-Control-Allow-Methods': 'GET, POST, PUT, OPTIONS',
}

/**
 * A FHIR server behind a small authorization server of the tests' own, by SMART App Launch 2: configuration, authorize
 * (with whoever is in the chart), token by code with S256 and by client assertion. Assertions are checked by another
 * library (`jose`) than the app signs them with.
 */
export async function smartServer(options: SmartOptions = {}, behind: FhirBehind = fhirBehind()) {
  const codes = new Map<string, { challenge: string; redirect: string; scope: string }>()
  const tokens = new Map<string, number>()
  const refreshes = new Set<string>()
  const seen: { kind: string; body?: URLSearchParams; authorization?: string | undefined }[] = []
  const usedIds = new Set<string>()
  let count = 0
  const now_s = (): number => Math.floor(Date.now() / 1000) + (options.ahead_s ?? 0)

  const http = await httpServer(async (request, body, response) => {
    for (const [name, value] of Object.entries(CORS)) response.setHeader(name, value)
    if (options.ahead_s !== undefined) {
      response.setHeader('Date', new Date(now_s() * 1000).toUTCString())
    }
    if (options.showsDate) response.setHeader('Access-Control-Expose-Headers', 'Date')
    if (request.method === 'OPTIONS') return response.writeHead(204).end()
    const url = new URL(request.url ?? '/', http.origin)
    const json = (status: number, value: unknown) =>
      response.writeHead(status, { 'Content-Type': 'application/json' }).end(JSON.stringify(value))
    if (url.pathname === '/fhir/.well-known/smart-configuration') {
      return json(200, {
        issuer: http.origin,
        authorization_endpoint: `${http.origin}/authorize`,
        token_endpoint: options.lies ? 'https://evil.example/token' : `${http.origin}/token`,
        code_challenge_methods_supported: options.withoutPkce ? [] : ['S256'],
        capabilities: ['launch-ehr', 'client-public', 'client-confidential-asymmetric'],
      })
    }
    if (url.pathname === '/authorize') {
      const asked = url.searchParams
      seen.push({ kind: 'authorize', body: asked })
      const back = new URL(asked.get('redirect_uri') ?? '')
      back.searchParams.set('state', asked.get('state') ?? '')
      if (options.denies) {
        // RFC 6749, section 4.1.2.1.
        back.searchParams.set('error', 'access_denied')
        return response.writeHead(302, { Location: back.href }).end()
      }
      const code = `code-${(count += 1)}`
      codes.set(code, {
        challenge: asked.get('code_challenge') ?? '',
        redirect: asked.get('redirect_uri') ?? '',
        scope: asked.get('scope') ?? '',
      })
      back.searchParams.set('code', code)
      return response.writeHead(302, { Location: back.href }).end()
    }
    if (url.pathname === '/token') {
      const asked = new URLSearchParams(body)
      seen.push({ kind: 'token', body: asked })
      return token(asked, json)
    }
    const { authorization } = request.headers
    seen.push({ kind: 'fhir', authorization })
    const until_s = tokens.get(authorization?.replace('Bearer ', '') ?? '') ?? 0
    if (until_s <= now_s()) return json(401, { error: 'invalid_token' })
    const path = (request.url ?? '').replace(/^\/fhir\/?/, '')
    const { status, text } = await behind.answer(request.method ?? 'GET', path, body)
    return response.writeHead(status, { 'Content-Type': 'application/fhir+json' }).end(text)
  })

  type Json = (status: number, value: unknown) => unknown
  const give = (scope: string, json: Json, more: Record<string, unknown> = {}): unknown => {
    const access_token = `token-${(count += 1)}`
    const expires_in = options.expires_s ?? 300
    tokens.set(access_token, now_s() + expires_in)
    const granted = options.grants ?? scope
    return json(200, { access_token, token_type: 'Bearer', expires_in, scope: granted, ...more })
  }

  async function token(asked: URLSearchParams, json: Json): Promise<unknown> {
    const refused = (error: string): unknown => json(400, { error })
    switch (asked.get('grant_type')) {
      case 'client_credentials':
        return (await isSigned(asked))
          ? give(asked.get('scope') ?? '', json)
          : json(400, { error: 'invalid_client' })
      case 'authorization_code': {
        const code = codes.get(asked.get('code') ?? '')
        codes.delete(asked.get('code') ?? '')
        // RFC 7636, section 4.6.
        const challenge = createHash('sha256')
          .update(asked.get('code_verifier') ?? '')
          .digest('base64url')
        const fits = code?.challenge === challenge && code.redirect === asked.get('redirect_uri')
        if (!code || !fits) return refused('invalid_grant')
        const { patient = 'P-7' } = options
        const refresh_token = `refresh-${(count += 1)}`
        refreshes.add(refresh_token)
        return give(code.scope, json, { patient, ...(!options.once && { refresh_token }) })
      }
      case 'refresh_token':
        return refreshes.has(asked.get('refresh_token') ?? '')
          ? give('launch patient/*.rs', json)
          : refused('invalid_grant')
      default:
        return refused('unsupported_grant_type')
    }
  }

  /** RFC 7523 section 3, and SMART Backend Services: who, to whom, until when, once, by a key that is known. */
  async function isSigned(asked: URLSearchParams): Promise<boolean> {
    try {
      const keys = jose.createLocalJWKSet(
        JSON.parse(options.jwks ?? '{"keys":[]}') as jose.JSONWebKeySet,
      )
      const { payload } = await jose.jwtVerify(asked.get('client_assertion') ?? '', keys, {
        algorithms: ['ES384', 'RS384'],
        audience: `${http.origin}/token`,
        issuer: 'stillhand-tablet',
        subject: 'stillhand-tablet',
        currentDate: new Date(now_s() * 1000),
        maxTokenAge: '5m',
        clockTolerance: 5,
      })
      if (payload.jti === undefined || usedIds.has(payload.jti)) return false
      usedIds.add(payload.jti)
      return (
        asked.get('client_assertion_type') ===
        'urn:ietf:params:oauth:client-assertion-type:jwt-bearer'
      )
    } catch {
      return false
    }
  }

  return {
    ...http,
    address: `${http.origin}/fhir`,
    behind,
    options,
    seen,
    /** Nothing that was given is taken any more. */
    endAll: () => tokens.clear(),
    endRefresh: () => refreshes.clear(),
  }
}
