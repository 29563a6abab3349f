import type { RecordTexts } from '../record/recordTexts.ts'
import { narrativeRows } from './narrativeRows.ts'
import type { AnyResource } from './resources.ts'
import { narrativeOf, xhtml } from './xhtml.ts'

/**
 * A resource with what it says in words (R4, `DomainResource.text`, rule dom-6): a heading and a list, in the XHTML
 * that R4 allows there. Whatever stands in a value is text.
 */
export function withNarrative<R extends AnyResource>(
  resource: R,
  { titles, labels }: RecordTexts['narrative'],
): R {
  const rows = narrativeRows(resource).map(
    ([label, value]) => `<li>${xhtml(labels[label])}: ${xhtml(value)}</li>`,
  )
  const list = rows.length > 0 ? `<ul>${rows.join('')}</ul>` : ''
  return { ...resource, text: narrativeOf(titles[resource.resourceType], list) }
}
