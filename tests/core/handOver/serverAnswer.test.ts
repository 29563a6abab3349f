import { describe, expect, it } from 'vitest'
import { readAnswer } from '../../../src/core/handOver/serverAnswer.ts'

const JSON_TYPE = 'application/fhir+json'
const outcome = (severity: string, diagnostics = 'x'): string =>
  JSON.stringify({
    resourceType: 'OperationOutcome',
    issue: [{ severity, code: 'processing', diagnostics }],
  })
const of = (status: number, text: string | undefined = outcome('error'), type = JSON_TYPE) =>
  readAnswer({ status, text, type })

describe('an answer of a FHIR server', () => {
  // HL7 FHIR R4, http.html: "Transaction", "create", "update", "Rejecting Updates", and its table of status codes.
  it.each([
    [400, 'refused'], // "resource could not be parsed or failed basic FHIR validation rules"
    [422, 'refused'], // "violated applicable FHIR profiles or server business rules"
    [412, 'refused'], // conditional: "multiple matches", "the client's criteria were not selective enough"
    [403, 'refused'],
    [413, 'refused'], // RFC 9110 section 15.5.14
    [404, 'refused'], // with an OperationOutcome: a reference of the transaction is not there
    [409, 'conflict'], // "Transaction": a resource is changed by somebody else at that moment
  ])('%i with an OperationOutcome is %s', (status, kind) => {
    const answer = of(status)
    expect(answer.kind).toBe(kind)
    expect(answer).toMatchObject({ status, issues: [{ severity: 'error', text: 'x' }] })
  })

  // RFC 9110, section 15: what each says of the way and not of what was sent.
  it.each([
    [401, 'login'],
    [405, 'notThere'],
    [406, 'notFhir'],
    [408, 'silent'],
    [415, 'notFhir'],
    [429, 'busy'],
    [500, 'broken'],
    [502, 'broken'],
    [503, 'busy'],
    [302, 'moved'],
  ])('%i keeps everything back: %s', (status, why) => {
    expect(of(status)).toMatchObject({ kind: 'trouble', why, status })
  })

  it('tells a wrong address from what is refused: no FHIR server says 404 without an OperationOutcome', () => {
    expect(of(404, 'Not Found', 'text/plain')).toMatchObject({ why: 'notThere' })
    expect(of(404, '<!DOCTYPE html><p>no', 'text/html')).toMatchObject({ why: 'html' })
    expect(of(404, '{"error":"no"}', 'application/json')).toMatchObject({ why: 'notThere' })
  })

  it('does not believe a 200 of anything but FHIR: a login page of a network, an empty text, half a text', () => {
    expect(of(200, '<html><body>Welcome</body></html>', JSON_TYPE)).toMatchObject({ why: 'html' })
    expect(of(200, '', JSON_TYPE)).toMatchObject({ why: 'notFhir' })
    expect(of(200, '{"resourceType":"Bundle","ty', JSON_TYPE)).toMatchObject({ why: 'notFhir' })
    expect(of(200, '[]', JSON_TYPE)).toMatchObject({ why: 'notFhir' })
    expect(readAnswer({ status: 200, type: JSON_TYPE, text: undefined })).toMatchObject({
      kind: 'trouble',
      why: 'tooLong',
    })
  })

  it('takes a 200 with an error within as refused, and one with a hint as done', () => {
    expect(of(200, outcome('error'))).toMatchObject({ kind: 'refused', status: 200 })
    expect(of(200, outcome('fatal'))).toMatchObject({ kind: 'refused' })
    expect(of(200, outcome('information'))).toMatchObject({ kind: 'done' })
    expect(of(201, JSON.stringify({ resourceType: 'Task', id: '1' }))).toMatchObject({
      kind: 'done',
    })
  })

  it('says what a server says though its answer is too long to read', () => {
    expect(readAnswer({ status: 422, type: JSON_TYPE, text: undefined })).toEqual({
      kind: 'refused',
      status: 422,
      issues: [],
    })
  })

  it('hands on how long a busy server asks to wait (RFC 9110, section 10.2.3)', () => {
    const raw = { status: 503, type: '', text: '', retryAfter_s: 120 }
    expect(readAnswer(raw)).toMatchObject({ why: 'busy', retryAfter_s: 120 })
  })
})
