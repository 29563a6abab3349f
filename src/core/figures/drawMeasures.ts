import { defined } from '../basics/defined.ts'
import type { Collector } from '../order/order.ts'
import type { DrawLog } from '../protocol/entry.ts'
import type { Flag, Outcome } from '../protocol/events.ts'
import type { ExceptionKind } from '../protocol/exceptions.ts'
import { factsOf } from '../record/factsOf.ts'
import { labelIsRight, labeledTubes } from '../record/labeledTubes.ts'
import type { DrawFacts, PunctureFact } from '../record/drawFacts.ts'
import { rulerStrip } from '../record/rulerStrip.ts'
import type { RecordTexts } from '../record/recordTexts.ts'
import { specimenRisks, type SpecimenRisk } from '../record/risk.ts'
import { calendarDate } from '../time/format.ts'
import { elapsed, type Stamp } from '../time/stamp.ts'
import { fillMeasures, type FillMeasure } from './fillMeasures.ts'
import { known_s } from './knownTime.ts'

/** What happens to a patient, and not to a tube or a step. */
export const REACTIONS = [
  'faint',
  'nausea',
  'sharpPain',
  'brightBlood',
  'swelling',
  'bleedingContinues',
] as const satisfies readonly ExceptionKind[]
export type Reaction = (typeof REACTIONS)[number]

/** One needle in a vein, or lancet, with what belongs to it. Lengths are s, known to the second. */
export interface PunctureMeasure {
  /** Who put it in. */
  readonly by: string
  /** How often a needle went in or a lancet opened the skin. */
  readonly tries: number
  readonly gaveBlood: boolean
  /** From the needle in to the last tube off; of a vein and a holder, where the clocks leave no doubt. */
  readonly needleToLast_s?: number
}

/** One stretch of the band around an arm. */
export interface BandMeasure {
  /** Who was at the chair. */
  readonly by: string
  /** `undefined` where its end or the clock is not known. */
  readonly length_s?: number
  /** As the record tells it: over where it may have been. */
  readonly isOver: boolean
}

/** What figures are made of, of one draw. No name of a patient, no number of one, no test that was asked for. */
export interface DrawMeasures {
  readonly drawId: string
  readonly practice: boolean
  readonly closed: boolean
  readonly outcome?: Outcome
  readonly opened_ms: number
  /** Local day on which it was opened, `2026-11-25`. */
  readonly day: string
  readonly people: readonly Collector[]
  readonly bands: readonly BandMeasure[]
  readonly punctures: readonly PunctureMeasure[]
  readonly fills: readonly FillMeasure[]
  /** Each once. */
  readonly flags: readonly Flag[]
  readonly reactions: readonly Reaction[]
  /** Specimens that went to the laboratory. */
  readonly specimens: number
  readonly labelsRight: number
  readonly pastLimit: number
  readonly rejected: number
}

/** Past the limit of a test, or too long on the cells. */
const PAST_LIMIT: ReadonlySet<SpecimenRisk['code']> = new Set(['overTime', 'separatedLate'])

/**
 * Measures of one draw from its log.
 * @throws RangeError when the log does not begin with the opening of a draw.
 */
export function drawMeasures(log: DrawLog, texts: RecordTexts): DrawMeasures {
  const facts = factsOf(log)
  const { opened, openedAt, closed } = facts
  const labeled = labeledTubes(facts)
  const seen = new Set(facts.exceptions.map(({ kind }) => kind))
  return defined({
    drawId: opened.drawId,
    practice: opened.invented,
    closed: closed !== undefined,
    outcome: closed?.outcome,
    opened_ms: openedAt.at_ms,
    day: calendarDate(openedAt),
    people: peopleOf(facts),
    bands: bandMeasures(log),
    punctures: facts.punctures
      .filter(({ needleIn }) => needleIn.length > 0)
      .map((puncture) => punctureMeasure(facts, puncture)),
    fills: fillMeasures(log, facts),
    flags: [...new Set(facts.flags.map(({ flag }) => flag))],
    reactions: REACTIONS.filter((kind) => seen.has(kind)),
    specimens: labeled.length,
    labelsRight: labeled.filter(({ tube }) => labelIsRight(facts, tube.id)).length,
    pastLimit: pastLimit(specimenRisks(log, texts)),
    rejected: labeled.filter(({ tube }) => facts.ways.get(tube.id)?.rejected).length,
  })
}

const pastLimit = (risks: readonly SpecimenRisk[]): number =>
  new Set(risks.filter(({ code }) => PAST_LIMIT.has(code)).flatMap(({ tubeIds }) => tubeIds)).size

const peopleOf = ({ collectors }: DrawFacts): readonly Collector[] => [
  ...new Map(collectors.map(({ collector }) => [collector.id, collector])).values(),
]

/** From the ruler, on which a stretch ends also where another needle was in by then. */
const bandMeasures = (log: DrawLog): readonly BandMeasure[] =>
  rulerStrip(log).bands.map(({ seq, length, over_ms }) =>
    defined({
      by: log.entries[seq - 1]?.by ?? '',
      length_s: length && known_s(length),
      isOver: over_ms > 0,
    }),
  )

function punctureMeasure(facts: DrawFacts, puncture: PunctureFact): PunctureMeasure {
  const drawn = facts.tubes.filter(
    (tube) => tube.puncture === puncture.number && tube.off && tube.fill !== 'empty',
  )
  const isHeld = puncture.skin === undefined && puncture.pulled === undefined
  const first = puncture.needleIn.at(-1)
  const last = drawn.flatMap(({ off }) => off ?? []).reduce(later, undefined)
  return defined({
    by: puncture.collector.id,
    tries: puncture.needleIn.length,
    gaveBlood: drawn.length > 0 || (puncture.pulled !== undefined && puncture.pulled.mL !== 0),
    needleToLast_s: isHeld && first && last ? known_s(elapsed(first, last)) : undefined,
  })
}

const later = (latest: Stamp | undefined, at: Stamp): Stamp =>
  latest && latest.at_ms > at.at_ms ? latest : at
