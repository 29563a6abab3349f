import type { Scenario } from '../../core/scenario/scenario.ts'

/** A practice script by the name of its file. */
export interface NamedScenario {
  readonly id: string
  readonly scenario: Scenario
}
