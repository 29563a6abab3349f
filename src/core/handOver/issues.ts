import { isRecord } from '../basics/isRecord.ts'
import { cleanText } from './cleanText.ts'

/** What a server says of something, shortened; R4 OperationOutcome.issue. */
export interface Issue {
  readonly severity: string
  readonly code: string
  /** Its own words, in plain text; empty where it has none. */
  readonly text: string
}

/** Nobody reads more of them. */
const MOST_ISSUES = 5
const MOST_SIGNS = 400

/** The issues of an OperationOutcome, the gravest first; none of anything else. */
export function readIssues(body: unknown): readonly Issue[] {
  if (!isRecord(body) || body['resourceType'] !== 'OperationOutcome') return []
  const issue = Array.isArray(body['issue']) ? body['issue'].filter(isRecord) : []
  return issue
    .toSorted((a, b) => gravity(a['severity']) - gravity(b['severity']))
    .slice(0, MOST_ISSUES)
    .map((each): Issue => {
      const details = isRecord(each['details']) ? each['details'] : {}
      const text = [each['diagnostics'], details['text']].map((said) => cleanText(said, MOST_SIGNS))
      return {
        severity: cleanText(each['severity'], 20),
        code: cleanText(each['code'], 40),
        text: text.find((said) => said !== '') ?? '',
      }
    })
}

const GRAVEST_FIRST = ['fatal', 'error', 'warning', 'information']
const gravity = (severity: unknown): number => {
  const place = GRAVEST_FIRST.indexOf(String(severity))
  return place < 0 ? GRAVEST_FIRST.length : place
}
