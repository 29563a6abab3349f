import { describe, expect, it } from 'vitest'
import { withoutRequests } from '../../../src/app/handOver/withoutRequests.ts'

const a = { url: 'https://fhir.example/r4/ServiceRequest/1', test: 'cbc' }
const b = { url: 'https://fhir.example/r4/ServiceRequest/2', test: 'bmp' }
const unknown = { url: 'https://fhir.example/r4/ServiceRequest/3' }
const order = (requests: readonly { url: string; test?: string }[], ...tests: string[]) => ({
  order: { orderNumber: 'O-1', tests, priority: 'routine' as const },
  requests,
})

// Common practice, no source: a test is only taken off where it is sure which one.
describe('an order some of whose requests have ended', () => {
  it('has nothing left where all have', () => {
    expect(withoutRequests(order([a, b], 'cbc', 'bmp'), [a, b])).toEqual({ kind: 'none' })
  })

  it('keeps the tests of the others', () => {
    expect(withoutRequests(order([a, b], 'cbc', 'bmp'), [a])).toEqual({
      kind: 'part',
      order: order([b], 'bmp'),
      without: ['cbc'],
    })
  })

  it.each([
    ['no test is known for it', order([unknown, b], 'cbc', 'bmp'), [unknown]],
    [
      'two asked for the same test',
      order([a, { ...b, test: 'cbc' }, unknown], 'cbc', 'bmp'),
      [a, { ...b, test: 'cbc' }],
    ],
    ['its test is not in the order', order([a, b], 'bmp', 'sodium'), [a]],
    ['no test would be left', order([a, unknown], 'cbc'), [a]],
  ])('is not sure where %s', (_why, given, ended) => {
    const last = given.requests.filter(({ url }) => ended.some((each) => each.url === url))
    expect(withoutRequests(given, last)).toEqual({ kind: 'unsure' })
  })
})
