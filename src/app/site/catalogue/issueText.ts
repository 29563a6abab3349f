import type * as v from 'valibot'
import { fillText } from '../../../core/basics/fillText.ts'
import type { JsonFaultCode, SiteTexts } from '../siteTexts.ts'

/** What the schemas ask for beside the type, by the name that valibot gives to each. */
const BY_TYPE: Readonly<Partial<Record<string, JsonFaultCode>>> = {
  picklist: 'notOneOf',
  regex: 'noDate',
  finite: 'notFinite',
  gt_value: 'notAboveZero',
  min_value: 'belowZero',
  min_length: 'empty',
  max_length: 'tooLong',
  max_value: 'aboveMost',
  check: 'unreadable',
}

/** What does not fit a schema, in our own words in place of the library's. */
export function issueText(issue: v.BaseIssue<unknown>, texts: SiteTexts['json']): string {
  const types: Readonly<Record<string, string | undefined>> = texts.types
  const { received } = issue
  const expected = issue.expected ?? ''
  const most = typeof issue.requirement === 'number' ? issue.requirement : ''
  return fillText(texts[codeOf(issue)], {
    expected: types[expected] ?? expected,
    received: types[received] ?? received,
    most,
  })
}

function codeOf({ kind, type, expected, received }: v.BaseIssue<unknown>): JsonFaultCode {
  if (expected === 'never') return 'keyUnknown'
  if (kind === 'schema' && received === 'undefined') return 'keyMissing'
  return BY_TYPE[type] ?? (kind === 'schema' ? 'wrongType' : 'otherwise')
}
