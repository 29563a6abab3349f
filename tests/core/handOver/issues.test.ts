import { describe, expect, it } from 'vitest'
import { readIssues } from '../../../src/core/handOver/issues.ts'

const outcome = (issue: unknown) => ({ resourceType: 'OperationOutcome', issue })

describe('what a server says of something', () => {
  // Shape and severities: HL7 FHIR R4, operationoutcome.html.
  it('puts the gravest first, and takes details where there are no diagnostics', () => {
    const said = readIssues(
      outcome([
        { severity: 'warning', code: 'informational', diagnostics: 'w' },
        { severity: 'error', code: 'required', details: { text: 'no status' } },
        { severity: 'fatal', code: 'exception', diagnostics: 'f', details: { text: 'other' } },
      ]),
    )
    expect(said).toEqual([
      { severity: 'fatal', code: 'exception', text: 'f' },
      { severity: 'error', code: 'required', text: 'no status' },
      { severity: 'warning', code: 'informational', text: 'w' },
    ])
  })

  it('shows no markup, no hidden signs and no line that is turned round', () => {
    const [issue] = readIssues(
      outcome([{ severity: 'error', code: 'x', diagnostics: 'a\u202Eb\u0000\n\tc\uD800 <b>' }]),
    )
    expect(issue?.text).toBe('a b c <b>')
  })

  it('keeps little of a server that says very much', () => {
    const issue = Array.from({ length: 9000 }, () => ({
      severity: 'error',
      code: 'x',
      diagnostics: 'long '.repeat(300),
    }))
    const said = readIssues(outcome(issue))
    expect(said).toHaveLength(5)
    expect(said.every(({ text }) => text.length <= 400)).toBe(true)
  })

  it.each([
    undefined,
    null,
    [],
    'x',
    {},
    { resourceType: 'Bundle' },
    outcome('x'),
    outcome([1, null]),
  ])('finds none in %j', (body) => expect(readIssues(body)).toEqual([]))
})
