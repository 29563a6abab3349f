import { defined } from '../basics/defined.ts'
import type { BloodLimits } from '../bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../catalogue/catalogue.ts'
import type { Collector, NeedleSet, Order, Patient, Preparation } from '../order/order.ts'
import { planDraw } from '../plan/planDraw.ts'
import type { PlanInput } from '../plan/planInput.ts'
import { sittingsOf } from '../series/sittings.ts'
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
 * @param today local date, `YYYY-MM-DD`, for the dates on the tubes.
 */
export function openScenario(
  scenario: Scenario,
  site: ScenarioSite,
  as: { readonly drawId: string; readonly device: string; readonly today: string },
): DrawOpened {
  const { demo, policy, catalogue, stock, bloodLimits, texts } = site
  const { tests, anticoagulant, restrictions, child, collecting } = scenario.order
  const [first, ...later] = sittingsOf(tests, catalogue)
  const order: Order = { ...demo.order, tests: first.tests }
  const preparation: Preparation = {
    ...demo.preparation,
    restrictions: restrictions ?? {},
    ...defined({ anticoagulant }),
  }
  const { needleSet, collector } = demo
  const { today } = as
  const patient = child
    ? {
        ...demo.patient,
        birthDate: bornMonthsBefore(today, child.age_months),
        weight_kg: child.weight_kg,
      }
    : demo.patient
  const plan = planDraw({
    order,
    patient,
    preparation,
    needleSet,
    collecting,
    catalogue,
    stock,
    bloodLimits,
    policy,
    texts,
    today,
  })
  return {
    type: 'drawOpened',
    drawId: as.drawId,
    device: as.device,
    invented: true,
    site: demo.siteName,
    patient,
    order,
    preparation,
    needleSet,
    ...defined({ collecting }),
    collector,
    plan,
    policy,
    policyChanges: policyChanges(site.defaultPolicy, policy),
    // Of an order of several draws the first is rehearsed, and nobody waits for the others.
    ...(first.parts.length > 0 && {
      sitting: {
        series: '',
        parts: first.parts,
        later: later.flatMap((sitting) => sitting.parts),
      },
    }),
  }
}

/** The day so many months before, the first of its month: `YYYY-MM-DD`. */
function bornMonthsBefore(today: string, months: number): string {
  const [year = 0, month = 1] = today.split('-').map(Number)
  return new Date(Date.UTC(year, month - 1 - months, 1)).toISOString().slice(0, 10)
}
