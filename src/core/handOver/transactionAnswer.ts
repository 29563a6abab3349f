import { isRecord } from '../basics/isRecord.ts'
import { readIssues, type Issue } from './issues.ts'
import type { Json, ServerAnswer } from './serverAnswer.ts'

/**
 * Whether a transaction was done. R4, http.html, "Transaction": a `transaction-response` has one entry for each that
 * was sent, in the same order, each with the status that it would have had alone. A server that says 200 to the whole
 * and an error within has taken it in part or not at all: it counts as refused.
 * @param sent_n entries of the transaction
 */
export function transactionAnswer(answer: ServerAnswer, sent_n: number): ServerAnswer {
  if (answer.kind !== 'done') return answer
  const { body, status } = answer
  const notFhir: ServerAnswer = { kind: 'trouble', why: 'notFhir', status, issues: [] }
  const isResponse = body['resourceType'] === 'Bundle' && body['type'] === 'transaction-response'
  const entry = Array.isArray(body['entry']) ? body['entry'].filter(isRecord) : []
  if (!isResponse || entry.length !== sent_n) return notFhir
  const inner = entry.map(responseOf)
  const failed = inner.filter(({ status: code }) => code < 200 || code > 299)
  const [first] = failed
  if (!first) return answer
  const issues = failed.flatMap((each) => each.issues).slice(0, 5)
  if (failed.every((each) => each.status === 409)) return { kind: 'conflict', status: 409, issues }
  if (first.status === 0) return notFhir
  return { kind: 'refused', status: first.status, issues }
}

/** R4: `response.status` begins with the three digits of HTTP and may go on with words. */
function responseOf({ response }: Json): {
  readonly status: number
  readonly issues: readonly Issue[]
} {
  const { status, outcome } = isRecord(response) ? response : {}
  const digits = /^\d{3}/.exec(typeof status === 'string' ? status : '')?.[0]
  return { status: Number(digits ?? 0), issues: readIssues(outcome) }
}
