import { isRecord } from '../../core/basics/isRecord.ts'
import type { Json, ServerAnswer } from '../../core/handOver/serverAnswer.ts'
import type { RecordServer } from '../../ports/recordServer.ts'

export type Pages =
  | { readonly kind: 'read'; readonly entries: readonly Json[]; readonly isWhole: boolean }
  | { readonly kind: 'not'; readonly answer: Exclude<ServerAnswer, { readonly kind: 'done' }> }

/**
 * All entries of a search over its pages (R4, http.html, "Paging": the link `next`).
 * @param most pages; a server that gives more, or one page again and again, is left there
 */
export async function readPages(
  server: Pick<RecordServer, 'search'>,
  query: string,
  most: number,
): Promise<Pages> {
  const entries: Json[] = []
  const seen = new Set<string>()
  for (let next: string | undefined = query; next !== undefined;) {
    if (seen.has(next) || seen.size >= most) return { kind: 'read', entries, isWhole: false }
    seen.add(next)
    const answer = await server.search(next)
    if (answer.kind !== 'done') return { kind: 'not', answer }
    const { body, status } = answer
    if (body['resourceType'] !== 'Bundle') {
      return { kind: 'not', answer: { kind: 'trouble', why: 'notFhir', status, issues: [] } }
    }
    entries.push(...listOf(body['entry']))
    const link = listOf(body['link']).find(({ relation }) => relation === 'next')
    next = typeof link?.['url'] === 'string' ? link['url'] : undefined
  }
  return { kind: 'read', entries, isWhole: true }
}

/** So many are asked after at one time: an address has its length. */
const AT_ONCE_n = 40

/** By what they are found: themselves by their ids, a Task by the request that it is about. */
const FOUND_BY = {
  Patient: { by: '_id', of: '' },
  ServiceRequest: { by: '_id', of: '' },
  Task: { by: 'focus', of: 'ServiceRequest/' },
} as const

/**
 * Resources of one type, as many searches as that takes one after the other.
 * @param ids their own; for Tasks those of the requests that they are about
 */
export async function* readByIds(
  server: Pick<RecordServer, 'search'>,
  type: keyof typeof FOUND_BY,
  ids: readonly string[],
  most: number,
): AsyncGenerator<Pages, void, undefined> {
  for (let from = 0; from < ids.length; from += AT_ONCE_n) {
    const { by, of } = FOUND_BY[type]
    const some = ids.slice(from, from + AT_ONCE_n).map((id) => encodeURIComponent(of + id))
    yield readPages(server, `${type}?${by}=${some.join(',')}&_count=${AT_ONCE_n}`, most)
  }
}

const listOf = (value: unknown): readonly Json[] =>
  Array.isArray(value) ? value.filter(isRecord) : []
