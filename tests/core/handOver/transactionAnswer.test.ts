import { describe, expect, it } from 'vitest'
import type { ServerAnswer } from '../../../src/core/handOver/serverAnswer.ts'
import { transactionAnswer } from '../../../src/core/handOver/transactionAnswer.ts'

const response = (...status: string[]): ServerAnswer => ({
  kind: 'done',
  status: 200,
  body: {
    resourceType: 'Bundle',
    type: 'transaction-response',
    entry: status.map((each) => ({
      response: {
        status: each,
        outcome: {
          resourceType: 'OperationOutcome',
          issue: [{ severity: 'error', code: 'x', diagnostics: `of ${each}` }],
        },
      },
    })),
  },
})

// HL7 FHIR R4, http.html, "Transaction": one entry for each, in the same order, each with its status.
describe('the answer to a transaction', () => {
  it('is done where each entry is: a status may go on with words', () => {
    expect(transactionAnswer(response('201 Created', '200'), 2).kind).toBe('done')
  })

  it('is refused where the whole says 200 and an entry does not', () => {
    expect(transactionAnswer(response('201 Created', '422 Unprocessable', '200'), 3)).toEqual({
      kind: 'refused',
      status: 422,
      issues: [{ severity: 'error', code: 'x', text: 'of 422 Unprocessable' }],
    })
  })

  it('is a conflict where all that failed is one', () => {
    expect(transactionAnswer(response('409', '200'), 2)).toMatchObject({ kind: 'conflict' })
    expect(transactionAnswer(response('409', '400'), 2)).toMatchObject({ kind: 'refused' })
  })

  it.each([
    ['fewer entries than were sent', response('201'), 2],
    ['more of them', response('201', '201'), 1],
    ['an entry without a status', response('201', ''), 2],
    [
      'a search in its place',
      { kind: 'done', status: 200, body: { resourceType: 'Bundle', type: 'searchset' } },
      0,
    ],
    ['a resource', { kind: 'done', status: 201, body: { resourceType: 'Patient' } }, 0],
  ] as const)('does not count with %s', (_name, answer, n) => {
    expect(transactionAnswer(answer, n)).toMatchObject({ kind: 'trouble', why: 'notFhir' })
  })

  it('leaves every other answer as it is', () => {
    const busy: ServerAnswer = { kind: 'trouble', why: 'busy', issues: [] }
    expect(transactionAnswer(busy, 3)).toBe(busy)
  })
})
