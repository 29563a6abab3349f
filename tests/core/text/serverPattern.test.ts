import { expect, it } from 'vitest'
import { serverPattern } from '../../../src/core/text/serverPattern.ts'

// Content Security Policy Level 3, section 2.3.1: a source ends at white space, `;` or `,`, and a star stands for any host.
it.each([
  ['https://fhir.clinic.example', true],
  ['https://fhir.clinic.example:8443', true],
  ['HTTPS://FHIR.CLINIC.EXAMPLE', true],
  ['https://[2001:db8::1]:8443', true],
  ['http://localhost:8080', true],
  ['http://127.0.0.1', true],
  ['http://fhir.clinic.example', false],
  ['https://*', false],
  ['https://*.example', false],
  ['https://a.example https://b.example', false],
  ["https://a.example; script-src 'unsafe-inline'", false],
  ['https://a.example,b.example', false],
  ['https://user@a.example', false],
  ['https://a.example/', false],
  ['wss://a.example', false],
  ['https:', false],
])('%s is a server that a page may be sent to: %s', (text, may) => {
  expect(serverPattern('http').test(text)).toBe(may)
})

it('of another scheme, or with more behind it, is what was asked for alone', () => {
  expect(serverPattern('ws').test('wss://hub.clinic.example:9222')).toBe(true)
  expect(serverPattern('ws').test('ws://hub.clinic.example:9222')).toBe(false)
  expect(serverPattern('http', '(/fhir)?').test('https://a.example/fhir')).toBe(true)
  expect(serverPattern('http', '(/fhir)?').test('https://a.example/other')).toBe(false)
})
