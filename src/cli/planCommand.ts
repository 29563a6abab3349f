import type { BloodLimits } from '../core/bloodLimit/bloodLimits.ts'
import type { Catalogue, StockTube } from '../core/catalogue/catalogue.ts'
import { planSittings } from '../core/plan/planSittings.ts'
import { isInputFault } from '../core/plan/planTexts.ts'
import type { Texts } from '../app/site/texts.ts'
import type { Policy } from '../core/policy/policy.ts'
import { readOrderFile } from '../app/site/catalogue/readJson.ts'

/** What the command plans with when the order does not bring its own. */
export interface PlanCommandSite {
  readonly catalogue: Catalogue
  readonly stock: readonly StockTube[]
  readonly bloodLimits: BloodLimits
  readonly policy: Policy
  readonly texts: Texts
  readonly today: string
}

export interface CommandResult {
  readonly code: 0 | 1 | 2
  readonly stdout: string
  readonly stderr: string
}

/**
 * Plans an order given as JSON text; an order of several draws has the plans after the first under `later`.
 * Code 0: a plan without problems. Code 1: the plan is printed, but something in it stops the draw; stderr says what.
 * Code 2: the order itself cannot be read; nothing is printed but the reasons.
 */
export function planCommand(text: string, site: PlanCommandSite): CommandResult {
  const reading = readOrderFile(text, site.texts)
  if (!reading.ok) {
    const lines = reading.faults.map(({ place, text: what }) =>
      place ? `${place}: ${what}` : what,
    )
    return { code: 2, stdout: '', stderr: lines.map((line) => `${line}\n`).join('') }
  }
  const [{ plan }, ...later] = planSittings({ ...site, ...reading.value })
  const problems = [plan, ...later.map((sitting) => sitting.plan)].flatMap((each) => each.problems)
  const bad = problems.filter(({ code }) => isInputFault(code))
  const stderr = problems.map(({ text: what }) => `${what}\n`).join('')
  if (bad.length > 0) return { code: 2, stdout: '', stderr }
  return {
    code: problems.length === 0 ? 0 : 1,
    stdout: `${JSON.stringify(later.length > 0 ? { ...plan, later } : plan, null, 2)}\n`,
    stderr,
  }
}
