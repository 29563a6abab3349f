import { defined } from '../basics/defined.ts'
import type { BloodLimits } from '../bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../catalogue/catalogue.ts'
import type { DrawSitting, SittingPart } from '../order/sitting.ts'
import type { Collector, NeedleSet, Order, Patient, Preparation } from '../order/order.ts'
import { planSittings } from '../plan/planSittings.ts'
import type { PlanInput } from '../plan/planInput.ts'
import { policyChanges, type Policy } from '../policy/policy.ts'
import type { DrawOpened } from '../protocol/events.ts'
import type { Scenario } from './scenario.ts'

/** What a site brings to a rehearsal: its data, and an invented patient. */
export interface ScenarioSite {
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
  readonly bloodLimits: BloodLimits
  readonly defaultPolicy: Policy
  readonly policy: Policy
  readonly texts: PlanInput['texts']
  readonly fillCorrections?: PlanInput['fillCorrections']
  readonly demo: {
    readonly siteName: string
    readonly collector: Collector
    readonly patient: Patient
    readonly order: Order
    readonly preparation: Preparation
    readonly needleSet: NeedleSet
  }
}

/**
 * The opening of a scenario's draw, with the rack that the planner makes of its order. Always marked as invented.
 * Of an order of several draws the first is opened, or the one that is told.
 * @param as.today local date, `YYYY-MM-DD`, for the dates on the tubes.
 * @param as.script by what name the script is found again for the later draws
 */
export function openScenario(
  scenario: Scenario,
  site: ScenarioSite,
  as: {
    readonly drawId: string
    readonly device: string
    readonly today: string
    readonly script?: string
    readonly sitting?: DrawSitting
  },
): DrawOpened {
  const { demo, policy, catalogue, stock, bloodLimits, texts, fillCorrections } = site
  const { tests, anticoagulant, restrictions, child, collecting } = scenario.order
  const { fasted_h, ...prepared } = demo.preparation
  const preparation: Preparation = {
    ...prepared,
    // Hours since food are those of the first draw.
    ...(!as.sitting && defined({ fasted_h })),
    restrictions: restrictions ?? {},
    ...defined({ anticoagulant }),
  }
  const { needleSet, collector } = demo
  const { today } = as
  const patient = child
    ? {
        ...demo.patient,
        birthDate:
          child.age_days === undefined
            ? bornMonthsBefore(today, child.age_months)
            : bornDaysBefore(today, child.age_days),
        weight_kg: child.weight_kg,
      }
    : demo.patient
  const planned = planSittings({
    order: { ...demo.order, tests },
    patient,
    preparation,
    needleSet,
    collecting,
    catalogue,
    stock,
    bloodLimits,
    policy,
    fillCorrections,
    texts,
    today,
  })
  const number = as.sitting?.parts[0]?.number
  const own =
    planned.find(({ parts }) => number !== undefined && parts[0]?.number === number) ?? planned[0]
  return {
    type: 'drawOpened',
    drawId: as.drawId,
    device: as.device,
    invented: true,
    site: demo.siteName,
    patient,
    order: { ...demo.order, tests: own.tests },
    preparation,
    needleSet,
    ...defined({ collecting }),
    collector,
    plan: own.plan,
    policy,
    policyChanges: policyChanges(site.defaultPolicy, policy),
    ...defined({ script: as.script, fillCorrections: someOf(fillCorrections) }),
    ...defined({ sitting: as.sitting ?? firstSitting(scenario, planned, as) }),
  }
}

/** What an opening tells of corrections: nothing where there are none. */
const someOf = <T>(all: readonly T[] | undefined): readonly T[] | undefined =>
  all && all.length > 0 ? all : undefined

/** A script of one draw ends with it, and nobody waits for the others. */
function firstSitting(
  { later, hour_min = 60 }: Scenario,
  [first, ...others]: ReturnType<typeof planSittings>,
  { drawId, script = '' }: { readonly drawId: string; readonly script?: string },
): DrawSitting | undefined {
  if (first.parts.length === 0) return undefined
  const parts = (all: readonly SittingPart[]) => all.map((part) => shortened(part, hour_min))
  return defined({
    series: later ? drawId : '',
    parts: parts(first.parts),
    later: parts(others.flatMap((sitting) => sitting.parts)),
    practice: later && { script, hour_min },
  })
}

/** In practice a sample may be off its time by this much at least, min: nobody draws to the second. */
const LEAST_TOLERANCE_min = 2

function shortened(part: SittingPart, hour_min: number): SittingPart {
  const { after_min, tolerance_min } = part
  const share = hour_min / 60
  const least_min = Math.min(LEAST_TOLERANCE_min, tolerance_min ?? 0)
  return {
    ...part,
    ...(after_min !== undefined && { after_min: after_min * share }),
    ...(tolerance_min !== undefined && {
      tolerance_min: Math.max(tolerance_min * share, least_min),
    }),
  }
}

/** The day so many days before: `YYYY-MM-DD`. */
function bornDaysBefore(today: string, days: number): string {
  const [year = 0, month = 1, day = 1] = today.split('-').map(Number)
  return new Date(Date.UTC(year, month - 1, day - days)).toISOString().slice(0, 10)
}

/** The day so many months before, the first of its month: `YYYY-MM-DD`. */
function bornMonthsBefore(today: string, months: number): string {
  const [year = 0, month = 1] = today.split('-').map(Number)
  return new Date(Date.UTC(year, month - 1 - months, 1)).toISOString().slice(0, 10)
}
