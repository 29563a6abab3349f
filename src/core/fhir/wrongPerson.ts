import type { DrawFacts } from '../record/drawFacts.ts'
import { isOfStranger } from '../record/labeledTubes.ts'
import { saysWrongPerson } from '../record/saysWrongPerson.ts'
import type { AnyResource } from './resources.ts'

/**
 * What was done was done to another person than the order names: the identity did not match with a needle in, or an
 * addendum says so.
 */
export const isOfAnother = (facts: DrawFacts): boolean =>
  saysWrongPerson(facts.addenda) ||
  (isOfStranger(facts) && facts.punctures.some(({ needleIn }) => needleIn.length > 0))

const CLINICAL: ReadonlySet<string> = new Set<AnyResource['resourceType']>([
  'Specimen',
  'Procedure',
  'Observation',
  'Consent',
])

/**
 * What is said of the body or the blood of this patient is marked as entered in error. The chart note stays current:
 * it is the account of what happened with this order, and says that the identity was wrong.
 */
export const asWrongPerson = (resource: AnyResource): AnyResource =>
  CLINICAL.has(resource.resourceType)
    ? ({ ...resource, status: 'entered-in-error' } as AnyResource)
    : resource
