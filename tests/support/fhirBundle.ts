import { writeBundle } from '../../src/core/fhir/bundle.ts'
import type { AnyResource, Bundle } from '../../src/core/fhir/resources.ts'
import type { DrawLog } from '../../src/core/protocol/entry.ts'
import { texts } from '../../src/data/en/texts.ts'
import { sha256 } from './sampleLog.ts'

export const bundleOf = (log: DrawLog): Bundle => writeBundle(log, texts, sha256)

export const asJson = (value: unknown) =>
  JSON.parse(JSON.stringify(value)) as Record<string, unknown>

export const ofType = <T extends AnyResource['resourceType']>(bundle: Bundle, type: T) =>
  bundle.entry
    .map(({ resource }) => resource)
    .filter((r): r is Extract<AnyResource, { resourceType: T }> => r.resourceType === type)

/** References as `Patient/id`, which tells the structure check what kind of resource they lead to. */
export function withTypedReferences(bundle: Bundle): Bundle {
  const types = bundle.entry.map(({ fullUrl, resource }) => [fullUrl, resource] as const)
  const text = types.reduce(
    (json, [url, { resourceType, id }]) =>
      json.replaceAll(`"reference":"${url}"`, `"reference":"${resourceType}/${id}"`),
    JSON.stringify(bundle),
  )
  return JSON.parse(text) as Bundle
}
