import { defined } from '../basics/defined.ts'
import { isoLocal } from '../time/format.ts'
import { LOCAL, quantity, siteConcept } from './codes.ts'
import { NAME, type FhirContext } from './context.ts'
import { isSearch } from '../record/noteFields.ts'
import type { Observation } from './resources.ts'

/**
 * One for each stretch of the tourniquet, which Procedure has no place for; with its length where that is certain. A
 * stretch to find the vein, over before the needle, is told apart from that of the draw.
 */
export function bandObservations({
  facts,
  head,
  numberOf,
  refTo,
  say,
}: FhirContext): Observation[] {
  const { patient } = facts.opened
  return facts.punctures.flatMap((puncture) => {
    const { number, bands, arm, vein, collector } = puncture
    return bands.map((band, index): Observation => {
      const { on, off, length } = band
      const code = isSearch(band, puncture) ? 'tourniquetSearch' : 'tourniquet'
      const certain =
        length && length.least_ms === length.most_ms ? length.most_ms / 1000 : undefined
      return defined({
        ...head('Observation', NAME.band(number, index)),
        identifier: numberOf(NAME.band(number, index)),
        partOf: [refTo(NAME.procedure)],
        status: off ? ('final' as const) : ('preliminary' as const),
        code: {
          coding: [{ system: LOCAL.observation, code }],
          text: say(code),
        },
        subject: refTo(NAME.patient, patient.fullName),
        effectivePeriod: defined({ start: isoLocal(on), end: off && isoLocal(off) }),
        performer: [refTo(NAME.collector(collector.id), collector.name)],
        valueQuantity: certain === undefined ? undefined : quantity(certain, 's'),
        bodySite: arm && siteConcept(arm, vein),
      })
    })
  })
}
