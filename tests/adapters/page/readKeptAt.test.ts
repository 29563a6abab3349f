import { afterEach, expect, test, vi } from 'vitest'
import { readKeptAt } from '../../../src/adapters/page/readKeptAt.ts'

afterEach(() => vi.unstubAllGlobals())

const HERE = 'http://localhost:8080/kept-at.json'
const serve = (text: string, status = 200): void => {
  vi.stubGlobal('fetch', () => Promise.resolve(new Response(text, { status })))
}

test('the address at which the records are kept is what the server says', async () => {
  serve('{"keptAt":"http://localhost:4173/"}')
  expect(await readKeptAt(HERE)).toBe('http://localhost:4173/')
})

test.each([
  ['{"keptAt":null}', 200],
  ['{"keptAt":"http://localhost:8080/"}', 200],
  ['{"keptAt":"https://elsewhere.example/"}', 200],
  ['{"keptAt":"javascript:alert(1)"}', 200],
  ['{"keptAt":"http://localhost:4173/../x"}', 200],
  ['[]', 200],
  ['<!doctype html>', 200],
  ['{"keptAt":"http://localhost:4173/"}', 404],
])('nothing is said for %s with status %s', async (text, status) => {
  serve(text, status)
  expect(await readKeptAt(HERE)).toBeUndefined()
})

test('without a server, or at another name, nothing is said', async () => {
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('offline')))
  expect(await readKeptAt(HERE)).toBeUndefined()
  serve('{"keptAt":"http://localhost:4173/"}')
  expect(await readKeptAt('https://app.example/kept-at.json')).toBeUndefined()
})
