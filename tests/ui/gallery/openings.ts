import type { SkinPlace } from '../../../src/core/order/collecting.ts'
import type { DrawOpened } from '../../../src/core/protocol/events.ts'
import { openScenario } from '../../../src/core/scenario/openScenario.ts'
import { sampleCollector } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'

/** The opening of a draw for these tests, planned with the shipped data; everything about it is invented. */
function openingFor(
  tests: readonly string[],
  change: Partial<DrawOpened> = {},
  from: {
    readonly collecting?: SkinPlace
    readonly child?: { readonly age_months: number; readonly weight_kg: number }
  } = {},
): DrawOpened {
  const scenario = { title: '', about: '', order: { tests, ...from }, lines: [] }
  const as = { drawId: 'D7-20261125-0003', device: 'D7', today: '2026-11-25' }
  const opening = openScenario(scenario, shippedSite, as)
  return { ...opening, collector: sampleCollector, ...change }
}

/** Nothing is known beforehand of what can be asked at the chair, so that every question comes up. */
const { latexAllergy: _latex, faintedBefore: _fainted, ...known } = shippedSite.demo.preparation
const UNASKED: DrawOpened['preparation'] = {
  ...known,
  anticoagulant: 'notAsked',
  restrictions: { right: 'fistula' },
}

/** Six tubes, three of them of one kind, one to be kept warm and one on ice, with one arm that may not be used. */
export const SIX_TUBES = openingFor(
  ['bmp', 'cryoglobulins', 'cbc', 'ammonia', 'glucose', 'crossmatch'],
  { preparation: UNASKED },
)

/** A fragile vein: by syringe and transfer device. */
const BY_SYRINGE = openingFor(['bmp', 'cbc'])
export const SYRINGE: DrawOpened = {
  ...BY_SYRINGE,
  needleSet: { ...BY_SYRINGE.needleSet, syringe_mL: 10 },
}

/** Two bottles and a tube. */
export const BOTTLES = openingFor(['bloodCultureAerobic', 'bloodCultureAnaerobic', 'cbc'])

/** As many tubes as one order may come to. */
export const MANY_TUBES = openingFor(
  ['bloodCultureAerobic', 'bloodCultureAnaerobic', 'pt', 'esr', 'digoxin', 'bmp', 'spep', 'cbc', 'acth', 'crossmatch', 'ammonia', 'glucose', 'leadBlood'],
) // prettier-ignore

export const HEEL = openingFor(
  ['cbc', 'bilirubinTotal'],
  {},
  { collecting: 'capillaryHeel', child: { age_months: 0, weight_kg: 3.2 } },
)

/** A newborn card, with a tube after it. */
export const CARD = openingFor(
  ['newbornScreen', 'cbc'],
  {},
  { collecting: 'capillaryHeel', child: { age_months: 0, weight_kg: 3.2 } },
)

export const FINGER = openingFor(['cbc'], {}, { collecting: 'capillaryFinger' })

/** Names as long as a form lets through. */
export const LONG_NAMES: DrawOpened = {
  ...SIX_TUBES,
  invented: false,
  patient: {
    ...SIX_TUBES.patient,
    fullName: 'Maximiliana-Theodora Featherstonehaugh-Invented van den Voorbeeldenburg-Sampleworth',
    recordNumber: 'MRN-00000000000004471902-X',
  },
  collector: {
    ...sampleCollector,
    name: 'Bartholomew-Alexander Longname-Placeholder of Examplebridge',
  },
}
