import type { DrawLog } from '../../src/core/protocol/entry.ts'
import type { Collector } from '../../src/core/order/order.ts'
import type { DrawFacts, PunctureFact, TubeFact } from '../../src/core/record/drawFacts.ts'
import { factsOf } from '../../src/core/record/factsOf.ts'
import { labeledTubes } from '../../src/core/record/labeledTubes.ts'
import { specimenNumber } from '../../src/core/protocol/specimenNumber.ts'
import { isAssumed, tubeVolume_mL } from '../../src/core/record/volumeDrawn.ts'
import type { DrawOpened } from '../../src/core/protocol/events.ts'
import { isoLocal } from '../../src/core/time/format.ts'
import type { Stamp } from '../../src/core/time/stamp.ts'
import note from '../../src/data/en/note.json' with { type: 'json' }
import type { DrawSummary, TubeSummary } from './drawSummary.ts'

/** The words of the note for a code; a text of an older draw stands as it is. */
const endReasonWords = (reason: string): string =>
  Object.entries(note.words.endReason).find(([code]) => code === reason)?.[1] ?? reason

/** The same extract of a draw that `readBundle` takes out of its bundle, taken straight from the log. */
export function summaryOf(log: DrawLog): DrawSummary {
  const facts = factsOf(log)
  const { opened, punctures, closed } = facts
  const { patient, order } = opened
  const needles = punctures.flatMap(({ needleIn }) => needleIn)
  // Gauze on a lanced place ends it, as the needle's coming out does.
  const out = punctures
    .flatMap(({ needleOut, pressureOn }) => (opened.collecting ? pressureOn : needleOut) ?? [])
    .at(-1)
  return {
    drawId: opened.drawId,
    invented: opened.invented,
    recorded: isoLocal(facts.recordedAt),
    fullName: patient.fullName || undefined,
    birthDate: patient.birthDate || undefined,
    recordNumber: patient.recordNumber || undefined,
    sex: patient.sex,
    orderNumber: order.orderNumber || undefined,
    provider: order.provider,
    priority: order.priority,
    tests: order.tests,
    collectors: onceEach(facts.collectors.map(({ collector }) => collector)),
    status: status(facts, needles.length > 0),
    reason: closed && facts.endReason && endReasonWords(facts.endReason),
    needleIn: iso(needles[0]),
    needleOut: needles.length > 0 ? iso(out) : undefined,
    sites: punctures.flatMap((puncture) => siteCode(puncture, opened.collecting) ?? []),
    // Only what befell the patient is a complication of the procedure.
    difficulties: facts.exceptions.flatMap(({ kind }) => (BEFELL.includes(kind) ? [kind] : [])),
    consent: consentSummary(facts),
    // To find the vein: on and off again before the first needle of that puncture.
    bands: punctures.flatMap(({ bands, needleIn: [first] }) =>
      bands.map(({ on, off }) => ({
        search: first !== undefined && off !== undefined && off.at_ms <= first.at_ms,
        on: iso(on),
        off: iso(off),
      })),
    ),
    tubes: labeledTubes(facts).map((fact) => tubeSummary(fact, facts)),
    noteStatus: closed ? (facts.addenda.length > 0 ? 'amended' : 'final') : 'preliminary',
  }
}

function consentSummary({ consent, exceptions }: DrawFacts): DrawSummary['consent'] {
  const taken = exceptions.findLast(({ kind }) => kind === 'consentWithdrawn')?.at
  if (taken && !(consent && consent.at.at_ms > taken.at_ms)) {
    const { given, by, form } = consent ?? {}
    return given
      ? { status: 'inactive', at: isoLocal(taken), by, form }
      : { status: 'rejected', at: isoLocal(taken), by: undefined, form: undefined }
  }
  if (!consent) return undefined
  const { given, by, form, at } = consent
  return { status: given ? 'active' : 'rejected', at: isoLocal(at), by, form }
}

const BEFELL: readonly string[] = [
  'swelling',
  'brightBlood',
  'sharpPain',
  'faint',
  'nausea',
  'bleedingContinues',
]

const iso = (at: Stamp | undefined): string | undefined => at && isoLocal(at)

/** The latest name under each id. */
function onceEach(collectors: readonly Collector[]): DrawSummary['collectors'] {
  const people = new Map(collectors.map((person) => [person.id, person]))
  return [...people.values()].map(({ id, initials, name }) => ({
    id,
    initials: initials || undefined,
    name: name || undefined,
  }))
}

function status({ closed }: DrawFacts, needleWasIn: boolean): DrawSummary['status'] {
  if (!closed) return 'in-progress'
  if (closed.outcome === 'notDrawn') return 'not-done'
  if (closed.outcome === 'stopped') return needleWasIn ? 'stopped' : 'not-done'
  return 'completed'
}

const siteCode = (
  puncture: PunctureFact | undefined,
  collecting: DrawOpened['collecting'],
): string | undefined => {
  const where = collecting ?? puncture?.vein
  return puncture?.arm && (where ? `${puncture.arm}-${where}` : puncture.arm)
}

function tubeSummary(fact: TubeFact, facts: DrawFacts): TubeSummary {
  const { tube } = fact
  const { order, preparation, drawId } = facts.opened
  const packet = [
    tube.lot && `Planned lot ${tube.lot} (not scanned)`,
    tube.expires && `expires ${tube.expires}`,
  ]
  return {
    specimenNumber: specimenNumber(drawId, tube.id, facts.redrawn.get(tube.id)),
    tubeCode: tube.tubeCode,
    tubeName: tube.name,
    additive: tube.additive,
    nominal_mL: tube.nominal_mL > 0 ? tube.nominal_mL : undefined,
    drawn_mL: isAssumed(fact) ? undefined : tubeVolume_mL(fact),
    packet: packet.filter(Boolean).join(', ') || undefined,
    short: fact.fill === 'short',
    on: iso(fact.on),
    off: iso(fact.off),
    mixed: iso(fact.mixed),
    spun: iso(facts.spins.find(({ tubeIds }) => tubeIds.includes(tube.id))?.started),
    site: siteCode(
      facts.punctures.find(({ number }) => number === fact.puncture),
      facts.opened.collecting,
    ),
    collectorId: fact.collector.id,
    fasted_h: preparation.fasted_h,
    tests: order.tests.filter((test) => tube.tests.includes(test)).length,
  }
}
