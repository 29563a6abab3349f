import { expect, test } from 'vitest'
import { allowScripts } from '../../../src/adapters/page/allowScripts.ts'

const BASE = 'http://localhost:4173/'

/** The rule that the app gives the browser. */
function rule(): (url: string) => string | null {
  let given: ((url: string) => string | null) | undefined
  const createPolicy = (
    name: string,
    rules: { createScriptURL: (url: string) => string | null },
  ): void => {
    expect(name).toBe('default')
    // Without a rule for it, no text becomes markup or code.
    expect(Object.keys(rules)).toEqual(['createScriptURL'])
    given = rules.createScriptURL
  }
  allowScripts({ trustedTypes: { createPolicy } }, BASE)
  if (!given) throw new Error('No policy was made.')
  return given
}

test.each([
  '/assets/timer.worker-BR9NxUwp.js',
  `${BASE}assets/intake.worker-rEPB_x0j.js`,
  '/assets/slowKey.worker-Cv-msS3W.js',
  `${BASE}vosk/vosk.worker.js`,
  `${BASE}sw.js`,
])('%s may be started', (url) => {
  expect(rule()(url)).toBe(new URL(url, BASE).href)
})

test.each([
  'https://elsewhere.example/sw.js',
  'http://localhost:4174/sw.js',
  'http://localhost.elsewhere.example:4173/sw.js',
  '//elsewhere.example/vosk/vosk.worker.js',
  'data:text/javascript,1',
  'blob:http://localhost:4173/0',
  'javascript:1',
  '/assets/index-Ct9pib0F.js',
  '/assets/../sw.js?x',
  '/assets/timer.worker-x.js/../../other.js',
  '/models/sw.js',
  '/sw.js#x',
])('%s may not', (url) => {
  expect(rule()(url)).toBeNull()
})

test('a browser without Trusted Types is left alone', () => {
  expect(() => allowScripts({}, BASE)).not.toThrow()
})
