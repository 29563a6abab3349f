import { tubeVolume_mL } from './volumeDrawn.ts'
import { defined } from '../basics/defined.ts'
import type { LogEntry } from '../protocol/entry.ts'
import { mustBeMixed } from '../protocol/sharedPredicates.ts'
import { specimenNumber } from '../protocol/specimenNumber.ts'
import type { Plan, PlannedTube } from '../plan/plan.ts'
import type {
  AccessionFact,
  DrawFacts,
  PunctureFact,
  ReadBackFact,
  SwapFact,
  TubeFact,
  LotReadFact,
} from './drawFacts.ts'

/**
 * The tubes in the order they really went on, with what was set aside and how labels were read back.
 * @param plans every plan the draw had, oldest first; the latest that names a tube describes it.
 */
export function tubeFacts(
  drawId: string,
  kept: readonly LogEntry[],
  plans: readonly Plan[],
  punctures: readonly PunctureFact[],
  collectors: DrawFacts['collectors'],
): {
  readonly drawn: readonly TubeFact[]
  readonly swaps: ReadonlyMap<string, readonly SwapFact[]>
  readonly readBacks: ReadonlyMap<string, readonly ReadBackFact[]>
  readonly accessions: ReadonlyMap<string, AccessionFact>
  readonly redrawn: ReadonlyMap<string, number>
  readonly unlabelled: DrawFacts['unlabelled']
} {
  const planned = new Map(plans.flatMap((plan) => plan.tubes).map((tube) => [tube.id, tube]))
  const drawn = new Map<string, TubeFact>()
  const swaps = new Map<string, readonly SwapFact[]>()
  const lots = new Map<string, LotReadFact>()
  const readBacks = new Map<string, readonly ReadBackFact[]>()
  const accessions = new Map<string, AccessionFact>()
  const redrawn = new Map<string, number>()
  const places = new Set<string>()
  const unlabelled: DrawFacts['unlabelled'][number][] = []
  let collector = collectors[0]?.collector
  let puncture = punctures[0]?.number ?? 1
  let needleWasOut = false
  const numberOf = (id: string): string =>
    accessions.get(id)?.accession ?? specimenNumber(drawId, id, redrawn.get(id))
  for (const { event, at } of kept) {
    switch (event.type) {
      case 'collectorChanged':
        collector = event.to
        break
      case 'punctureBegun':
        puncture = event.number
        needleWasOut = false
        break
      case 'needleIn':
        if (needleWasOut) puncture += 1
        needleWasOut = false
        break
      case 'needleOut':
        needleWasOut = true
        break
      case 'tubeOn': {
        const known = planned.get(event.tubeId)
        const tube = known ?? unplanned(event.tubeId)
        // A tube that goes on again, after a swap or lost flow, takes its last place in the order.
        drawn.delete(event.tubeId)
        // What was read stood on the tube that is gone.
        readBacks.delete(event.tubeId)
        if (collector) {
          const isPlanned = known !== undefined
          places.add(event.tubeId)
          const place = [...places].indexOf(event.tubeId) + 1
          const order = { position: 0, place }
          drawn.set(event.tubeId, { tube, isPlanned, ...order, puncture, collector, on: at })
        }
        break
      }
      case 'tubeOff':
        change(
          drawn,
          event.tubeId,
          defined({ off: at, fill: event.fill, estimate_mL: event.estimate_mL }),
        )
        break
      case 'tubeMixed':
        change(drawn, event.tubeId, defined({ mixed: at, mixedOf: waitingToMix(drawn) }))
        break
      case 'tubeHandled': {
        const handled = { ...drawn.get(event.tubeId)?.handled, [event.how]: at }
        change(drawn, event.tubeId, { handled })
        break
      }
      case 'circleFilled': {
        const circles = [...(drawn.get(event.tubeId)?.circles ?? []), event.finding]
        change(drawn, event.tubeId, { circles })
        break
      }
      case 'cardDried':
        change(drawn, event.tubeId, { dried: at })
        break
      case 'tubeSwapped':
        add(swaps, event.tubeId, {
          why: event.why,
          at,
          ...defined({
            blood_mL: bloodIn(drawn.get(event.tubeId)),
            number:
              event.redrawnAs === undefined
                ? accessions.get(event.tubeId)?.accession
                : numberOf(event.tubeId),
          }),
        })
        if (event.redrawnAs !== undefined) redrawn.set(event.tubeId, event.redrawnAs)
        drawn.delete(event.tubeId)
        // What was read stood on the tube that is gone.
        readBacks.delete(event.tubeId)
        accessions.delete(event.tubeId)
        lots.delete(event.tubeId)
        break
      case 'unlabelledSettled': {
        const { tubeId, how, by } = event
        readBacks.delete(tubeId)
        unlabelled.push({ tubeId, how, by, at, number: numberOf(tubeId) })
        break
      }
      case 'labelReadBack': {
        const { tubeId, specimenNumber, how, matches } = event
        add(readBacks, tubeId, { specimenNumber, how, matches, at })
        break
      }
      case 'lotRead': {
        const { lot, expires } = event
        lots.set(event.tubeId, defined({ lot, expires, at }))
        break
      }
      case 'accessionTaken':
        accessions.set(event.tubeId, { accession: event.accession, how: event.how, at })
        break
      default:
    }
  }
  const ordered = [...drawn.values()].map((tube, index) =>
    defined({
      ...tube,
      position: index + 1,
      lotRead: lots.get(tube.tube.id),
      pulled: punctures.find(({ number }) => number === tube.puncture)?.pulled?.at,
    }),
  )
  return { drawn: ordered, swaps, readBacks, accessions, redrawn, unlabelled }
}

/** How many tubes are off and not mixed, where they are several. */
function waitingToMix(drawn: ReadonlyMap<string, TubeFact>): number | undefined {
  const waiting = [...drawn.values()].filter(
    (fact) => fact.off && !fact.mixed && mustBeMixed(fact.tube, fact),
  )
  return waiting.length > 1 ? waiting.length : undefined
}

/** Blood in a tube that is set aside; none in one that was never on. */
const bloodIn = (tube: TubeFact | undefined): number | undefined =>
  tube === undefined ? 0 : tubeVolume_mL(tube)

function add<T>(facts: Map<string, readonly T[]>, id: string, fact: T): void {
  facts.set(id, [...(facts.get(id) ?? []), fact])
}

function change(drawn: Map<string, TubeFact>, id: string, fields: Partial<TubeFact>): void {
  const tube = drawn.get(id)
  if (tube) drawn.set(id, { ...tube, ...fields })
}

/** A log that names a tube no plan has is odd but must still be told. */
function unplanned(id: string): PlannedTube {
  return {
    id,
    tubeCode: id,
    name: id,
    role: 'specimen',
    additive: 'plain',
    closure: '',
    nominal_mL: 0,
    least_mL: 0,
    inversions: { min: 0, max: 0 },
    fill: { early_s: 0, expected_s: 0, late_s: Number.MAX_SAFE_INTEGER },
    tests: [],
    handling: [],
    reason: '',
  }
}
