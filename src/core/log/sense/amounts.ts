import type { NeedleSet } from '../../order/order.ts'
import type { DrawLog } from '../../protocol/entry.ts'
import type { DrawEvent, DrawOpened } from '../../protocol/events.ts'
import type { Plan, PlannedTube } from '../../plan/plan.ts'
import { LIMIT_RANGES } from '../../policy/limitRanges.ts'
import { limit as limitOf, LIMIT_KEYS } from '../../policy/policy.ts'
import { quoted } from '../../text/shownText.ts'
import { logFault, type LogFault } from '../fault.ts'

/** What a number is, what it must lie between, and the number. */
type Amount = readonly [path: string, least: number, most: number, value: number | undefined | null]

const FOREVER_s = 1e9
const LONGEST_min = 100_000

/** Numbers that cannot be: negative volumes, lengths of a needle in meters, limits outside what they may be set to. */
export function amountFault(log: DrawLog): LogFault | undefined {
  for (const { event, seq } of log.entries) {
    const odd = amountsOf(event).find(([, least, most, value]) => isOutside(value, least, most))
    if (odd) return logFault('amount', seq, { path: odd[0], value: String(odd[3]) })
    const limit = event.type === 'drawOpened' ? limitFault(event, seq) : undefined
    if (limit) return limit
  }
  return undefined
}

/** `null` is a length that nobody could know. */
const isOutside = (value: number | undefined | null, least: number, most: number): boolean =>
  typeof value === 'number' && !(value >= least && value <= most)

function amountsOf(event: DrawEvent): readonly Amount[] {
  switch (event.type) {
    case 'drawOpened':
      return [...openingAmounts(event), ...planAmounts(event.plan)]
    case 'planRevised':
      return planAmounts(event.plan)
    case 'needleSetChosen':
      return setAmounts(event.set)
    case 'punctureBegun':
      return [['punctureBegun.number', 1, 1000, event.number]]
    case 'needleIn':
      return [['needleIn.attempt', 1, 1000, event.attempt]]
    case 'syringeFilled':
      return [
        ['syringeFilled.planned_mL', 0, 1000, event.planned_mL],
        ['syringeFilled.estimate_mL', 0, 200, event.estimate_mL],
      ]
    case 'tubeOff':
      return [['tubeOff.estimate_mL', 0, 200, event.estimate_mL]]
    case 'spinStarted':
      return [
        // No clinical centrifuge turns as fast.
        ['spinStarted.g', 0, 1_000_000, event.g],
        ['spinStarted.spin_min', 0, LONGEST_min, event.spin_min],
        ['spinStarted.rpm', 0, 1_000_000, event.rpm],
      ]
    case 'aliquoted':
      return [['aliquoted.portions', 1, 1000, event.portions]]
    case 'cueGiven':
      return [['cueGiven.late_ms', 0, Number.MAX_VALUE, event.late_ms]]
    case 'awayNoticed':
      return [['awayNoticed.away_ms', 0, Number.MAX_VALUE, event.away_ms]]
    default:
      return []
  }
}

function openingAmounts({ patient, preparation, needleSet }: DrawOpened): Amount[] {
  return [
    ['patient.weight_kg', 0.3, 400, patient.weight_kg],
    ['patient.haematocrit_pct', 5, 85, patient.haematocrit_pct],
    ['preparation.fasted_h', 0, 1000, preparation.fasted_h],
    ['preparation.earlierDraws_mL', 0, 20_000, preparation.earlierDraws_mL],
    ...setAmounts(needleSet),
  ]
}

function setAmounts({ needle_mm, tubing_mm, tubingBore_mm }: NeedleSet): Amount[] {
  return [
    ['needleSet.needle_mm', 1, 200, needle_mm],
    ['needleSet.tubing_mm', 0, 2000, tubing_mm],
    ['needleSet.tubingBore_mm', 0, 20, tubingBore_mm],
  ]
}

function planAmounts({ tubes, blood, band }: Plan): Amount[] {
  return [
    ...tubes.flatMap(tubeAmounts),
    ['blood.draw_mL', 0, 20_000, blood.draw_mL],
    ['blood.earlier_mL', 0, 20_000, blood.earlier_mL],
    ['blood.limit_mL', 0, 20_000, blood.limit_mL],
    ['band.predicted_s', 0, FOREVER_s, band.predicted_s],
  ]
}

function tubeAmounts(tube: PlannedTube): Amount[] {
  const { fill, inversions } = tube
  return [
    ['tube.nominal_mL', 0.01, 200, tube.nominal_mL],
    ['tube.planned_mL', 0.01, tube.nominal_mL, tube.planned_mL],
    ['tube.least_mL', 0, tube.nominal_mL, tube.least_mL],
    ['tube.inversions.min', 0, inversions.max, inversions.min],
    ['tube.inversions.max', 0, 1000, inversions.max],
    ['tube.fill.early_s', 0, fill.expected_s, fill.early_s],
    ['tube.fill.expected_s', 0, fill.late_s, fill.expected_s],
    ['tube.clot_min', 0, LONGEST_min, tube.clot_min],
    ['tube.timeLimit_min', 0, LONGEST_min, tube.timeLimit_min],
  ]
}

function limitFault({ policy, policyChanges }: DrawOpened, seq: number): LogFault | undefined {
  const changed = policyChanges.flatMap(({ key, from, to }) => [
    [key, from] as const,
    [key, to] as const,
  ])
  const kept = LIMIT_KEYS.map((key) => [key, limitOf(policy, key)] as const)
  for (const [key, value] of [...kept, ...changed]) {
    if (!Object.hasOwn(LIMIT_RANGES, key)) {
      return logFault('unknownLimit', seq, { key: quoted(key) })
    }
    const { least, most } = LIMIT_RANGES[key]
    if (isOutside(value, least, most)) return logFault('limit', seq, { key, value, least, most })
  }
  return undefined
}
